"""What a cooperative's desk decides: who may do what, and what its pages say of the farms. Pure:
dataclasses in, dataclasses out."""
