"""Every sentence a person reads, in the units, numbers and dates she reads."""
