"""The pin simulator (optional extra ``pins``): a ball and ten rigid pins with springs, dampers and friction.

Read it in this order: :mod:`numbers` (what it assumes), :mod:`shape` (how far apart two things are),
:mod:`contact` (what a touch does), :mod:`floor`, :mod:`loop`, :mod:`throw` (racks in, pins standing out).
"""
