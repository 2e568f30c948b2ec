"""Labels on paper: sheets by their millimetres, single bags, a preview, and a PDF."""
