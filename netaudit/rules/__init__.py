"""What is judged: a folder for each family, a file for each theme."""
