"""Two bills side by side, in each form."""
