"""The gateways behind one protocol (Twilio-compatible, or of a dialect of its own), and a pretend
gateway that misbehaves on demand."""
