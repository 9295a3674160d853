"""The teacher's panel: papers for a clinic."""
