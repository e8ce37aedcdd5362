"""The job card as it is shown: on the page, in lists, and the pictures to judge by."""
