"""What happens while food dries: runs, weighings, forecasts, and files of them."""
