"""The pages First hub, Practise and Progress."""
