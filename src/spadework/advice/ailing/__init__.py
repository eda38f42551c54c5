"""Why a plant ails: signs weighed against what is possible here and now."""
