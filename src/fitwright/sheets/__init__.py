"""What is put out on paper and in files: drawings, solids, lists, the packet and the quote."""
