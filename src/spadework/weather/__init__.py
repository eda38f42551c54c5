"""Daily series, their readers and checks, and the years made from them."""
