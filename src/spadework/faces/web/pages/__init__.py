"""One module for each page or group of pages; `ALL` in `ways` lists them."""
