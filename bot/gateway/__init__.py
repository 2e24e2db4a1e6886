"""The Twilio-compatible REST client, and a pretend gateway that misbehaves on demand."""
