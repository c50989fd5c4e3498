//! What a build in front of a wall is made of: one layer, as it is bought.

/// One layer of a stack, listed from the room's side to the hard wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Layer {
    /// A fibrous or open-cell slab.
    Porous {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
        /// Airflow resistivity, Pa s/m², > 0.
        flow_resistivity_pa_s_per_m2: f64,
    },
    /// Air.
    Gap {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
    },
    /// A stiff board with round holes in a square grid.
    Perforated {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
        /// Diameter of a hole, m, > 0.
        hole_m: f64,
        /// From the middle of one hole to that of the next, m, above the diameter.
        pitch_m: f64,
    },
    /// A stiff board with long parallel slots, or slats side by side.
    Slotted {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
        /// Width of a slot, m, > 0.
        slot_m: f64,
        /// From the middle of one slot to that of the next, m, above the width.
        pitch_m: f64,
    },
    /// A thin limp sheet that lets no air through.
    Membrane {
        /// Mass, kg/m², > 0.
        mass_kg_per_m2: f64,
        /// Resistance over mass reactance, ≥ 0.
        loss: f64,
    },
    /// Thin cloth or fleece.
    Cloth {
        /// Airflow resistance, Pa s/m, ≥ 0.
        flow_resistance_pa_s_per_m: f64,
        /// Mass, kg/m², > 0, of a cloth that hangs free; `None` for one that is held still.
        mass_kg_per_m2: Option<f64>,
    },
    /// A board without holes, taken for a limp sheet of its mass: stiffness, its own notes and how it is fixed are left out.
    Board {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
        /// Density, kg/m³, > 0.
        density_kg_per_m3: f64,
    },
}

impl Layer {
    /// Thickness, m; membranes and cloths have none.
    #[must_use]
    pub fn thickness_m(&self) -> f64 {
        match *self {
            Self::Porous { thickness_m, .. }
            | Self::Gap { thickness_m }
            | Self::Perforated { thickness_m, .. }
            | Self::Slotted { thickness_m, .. }
            | Self::Board { thickness_m, .. } => thickness_m,
            Self::Membrane { .. } | Self::Cloth { .. } => 0.0,
        }
    }

    /// Whether it has a mass that can resonate with the air behind it.
    #[must_use]
    pub fn can_resonate(&self) -> bool {
        matches!(
            self,
            Self::Perforated { .. }
                | Self::Slotted { .. }
                | Self::Membrane { .. }
                | Self::Board { .. }
        )
    }

    /// The layer as it hangs in folds: so many square metres of cloth before one of wall. Only cloth can be folded.
    ///
    /// ```text
    /// z' = z / fullness
    /// ```
    ///
    /// The pressure drives air through all of the cloth, so that resistance and mass before a square metre of wall fall.
    ///
    /// # Units
    /// - `fullness`: ratio, ≥ 1
    ///
    /// # Valid
    /// Folds small beside the wavelength; their depth is the gap behind the cloth.
    ///
    /// # Source
    /// Impedances side by side; common practice, no source.
    #[must_use]
    pub fn folded(self, fullness: f64) -> Self {
        match self {
            Self::Cloth {
                flow_resistance_pa_s_per_m,
                mass_kg_per_m2,
            } => Self::Cloth {
                flow_resistance_pa_s_per_m: flow_resistance_pa_s_per_m / fullness,
                mass_kg_per_m2: mass_kg_per_m2.map(|mass| mass / fullness),
            },
            flat => flat,
        }
    }
}
