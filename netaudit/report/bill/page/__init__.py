"""The bill as a page to print and carry."""
