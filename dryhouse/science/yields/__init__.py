"""How much dried food a fresh amount gives, and how sure that is.

student   Student's t: its distribution and its quantiles
belief    a normal–inverse-gamma belief about the logarithm of a ratio, and what it predicts
prior     the handbook's belief: mass balance, joined with published yield tables
measure   bulk densities, her own before the handbook's
ratio     handbook, own batches and both joined, with their workings
"""
