"""Floor geometry: outlines, obstacles, walking distance, clearances."""
