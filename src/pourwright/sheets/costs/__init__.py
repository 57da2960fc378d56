"""What a piece costs on paper and in a spreadsheet; it reads the cost document and reckons no price anew."""
