"""What is judged, one family a file."""
