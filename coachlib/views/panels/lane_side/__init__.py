"""The lane-side panel, its parts, scripts and styles."""
