"""A question of the farmer's: what it is about, and one file a trade whose figures answer it."""
