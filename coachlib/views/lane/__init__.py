"""The lane from above: one scene, drawn live and in print."""
