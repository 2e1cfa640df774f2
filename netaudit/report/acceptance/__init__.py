"""What a filled acceptance sheet says of its plan, in each form."""
