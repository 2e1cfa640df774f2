"""What is bought and cut: cables, boxes, prices, and what to know before ordering them."""
