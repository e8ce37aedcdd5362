"""What a user can describe: frozen parts that check themselves, and the scenario files that hold them."""
