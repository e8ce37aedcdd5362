"""The equations of the model as they are written."""
