"""How much dried food a fresh amount gives, and how much fresh a dried amount takes."""
