"""What a draft is made of: answers, lanes from desk to storage, remarks, and how replies are understood."""
