"""What we print: label sheets and mats, text in, PDF bytes out."""
