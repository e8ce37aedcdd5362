"""The races and what the hands feel of them: loads, torque, life, defects."""
