"""Values passed between the stages: frozen dataclasses, no behaviour beyond reading them."""
