//! The couplings of a sketch: what meshes with what.

use serde_json::{Value, json};

/// A gear: the id of its shaft, or `housing`, and its teeth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gear {
    /// Id of the shaft.
    pub shaft: String,
    /// Tooth count.
    pub teeth: u32,
}

impl From<(&str, u32)> for Gear {
    fn from((shaft, teeth): (&str, u32)) -> Self {
        Self {
            shaft: shaft.to_owned(),
            teeth,
        }
    }
}

/// What meshes with what in a coupling.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gearing {
    /// Sun – pinion – ring.
    Planetary {
        /// The sun.
        sun: Gear,
        /// The ring.
        ring: Gear,
        /// The carrier's shaft.
        carrier: String,
        /// Teeth of a pinion.
        pinion: u32,
    },
    /// Sun – inner pinion – outer pinion – ring.
    DoublePinion {
        /// The sun.
        sun: Gear,
        /// The ring.
        ring: Gear,
        /// The carrier's shaft.
        carrier: String,
        /// Teeth of an inner pinion.
        inner: u32,
        /// Teeth of an outer pinion.
        outer: u32,
    },
    /// Sun – sun pinion, fixed to a ring pinion – ring.
    Stepped {
        /// The sun.
        sun: Gear,
        /// The ring.
        ring: Gear,
        /// The carrier's shaft.
        carrier: String,
        /// Teeth of the step that meshes with the sun.
        sun_pinion: u32,
        /// Teeth of the step that meshes with the ring.
        ring_pinion: u32,
    },
    /// First sun – first pinion, fixed to a second pinion – second sun.
    SteppedSuns {
        /// The first sun.
        first: Gear,
        /// The second sun.
        second: Gear,
        /// The carrier's shaft.
        carrier: String,
        /// Teeth of the steps that mesh with them.
        pinions: [u32; 2],
    },
    /// Small sun – short pinion – long pinion – ring, and large sun – long pinion.
    Ravigneaux {
        /// The small sun.
        small: Gear,
        /// The large sun.
        large: Gear,
        /// The ring.
        ring: Gear,
        /// The carrier's shaft.
        carrier: String,
        /// Teeth of a short pinion.
        short: u32,
        /// Teeth of a long pinion.
        long: u32,
    },
    /// Two gears on fixed axes.
    Pair {
        /// Whether the second gear surrounds the first.
        internal: bool,
        /// The first gear.
        first: Gear,
        /// The second gear.
        second: Gear,
    },
}

/// A coupling.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Coupling {
    /// Its id.
    pub id: String,
    /// Its gears.
    pub gearing: Gearing,
    /// Pinions in a row.
    pub count: u32,
}

impl Gearing {
    /// Ids of the shafts of its members, the housing among them.
    pub fn shafts(&self) -> Vec<&str> {
        match self {
            Self::Planetary {
                sun, ring, carrier, ..
            }
            | Self::DoublePinion {
                sun, ring, carrier, ..
            }
            | Self::Stepped {
                sun, ring, carrier, ..
            } => vec![&sun.shaft, carrier, &ring.shaft],
            Self::Ravigneaux {
                small,
                large,
                ring,
                carrier,
                ..
            } => vec![&small.shaft, &large.shaft, carrier, &ring.shaft],
            Self::SteppedSuns {
                first,
                second,
                carrier,
                ..
            } => vec![&first.shaft, carrier, &second.shaft],
            Self::Pair { first, second, .. } => vec![&first.shaft, &second.shaft],
        }
    }

    /// The ids of the shafts of its members, to be changed.
    pub fn shafts_mut(&mut self) -> Vec<&mut String> {
        match self {
            Self::Planetary {
                sun, ring, carrier, ..
            }
            | Self::DoublePinion {
                sun, ring, carrier, ..
            }
            | Self::Stepped {
                sun, ring, carrier, ..
            } => vec![&mut sun.shaft, carrier, &mut ring.shaft],
            Self::Ravigneaux {
                small,
                large,
                ring,
                carrier,
                ..
            } => vec![&mut small.shaft, &mut large.shaft, carrier, &mut ring.shaft],
            Self::SteppedSuns {
                first,
                second,
                carrier,
                ..
            } => vec![&mut first.shaft, carrier, &mut second.shaft],
            Self::Pair { first, second, .. } => vec![&mut first.shaft, &mut second.shaft],
        }
    }

    /// Its tooth counts, to be changed.
    pub fn teeth_mut(&mut self) -> Vec<&mut u32> {
        match self {
            Self::Planetary {
                sun, ring, pinion, ..
            } => vec![&mut sun.teeth, pinion, &mut ring.teeth],
            Self::DoublePinion {
                sun,
                ring,
                inner,
                outer,
                ..
            } => vec![&mut sun.teeth, inner, outer, &mut ring.teeth],
            Self::Stepped {
                sun,
                ring,
                sun_pinion,
                ring_pinion,
                ..
            } => vec![&mut sun.teeth, sun_pinion, ring_pinion, &mut ring.teeth],
            Self::Ravigneaux {
                small,
                large,
                ring,
                short,
                long,
                ..
            } => vec![
                &mut small.teeth,
                &mut large.teeth,
                short,
                long,
                &mut ring.teeth,
            ],
            Self::SteppedSuns {
                first,
                second,
                pinions: [p, q],
                ..
            } => vec![&mut first.teeth, p, q, &mut second.teeth],
            Self::Pair { first, second, .. } => vec![&mut first.teeth, &mut second.teeth],
        }
    }
}

impl Gear {
    fn to_json(&self) -> Value {
        json!({"shaft": self.shaft, "teeth": self.teeth})
    }
}

impl Coupling {
    /// As an entry of a scenario file.
    pub fn to_json(&self) -> Value {
        let (id, label, count) = (&self.id, format!("Set {}", self.id), self.count);
        match &self.gearing {
            Gearing::Planetary {
                sun,
                ring,
                carrier,
                pinion,
            } => json!({
                "kind": "planetary", "id": id, "label": label,
                "sun": sun.to_json(), "ring": ring.to_json(), "carrier": carrier,
                "pinion": {"teeth": pinion, "count": count},
            }),
            Gearing::DoublePinion {
                sun,
                ring,
                carrier,
                inner,
                outer,
            } => json!({
                "kind": "double-pinion", "id": id, "label": label,
                "sun": sun.to_json(), "ring": ring.to_json(), "carrier": carrier,
                "inner": {"teeth": inner}, "outer": {"teeth": outer}, "count": count,
            }),
            Gearing::Stepped {
                sun,
                ring,
                carrier,
                sun_pinion,
                ring_pinion,
            } => json!({
                "kind": "stepped", "id": id, "label": label,
                "sun": sun.to_json(), "ring": ring.to_json(), "carrier": carrier,
                "sun_pinion": {"teeth": sun_pinion}, "ring_pinion": {"teeth": ring_pinion},
                "count": count,
            }),
            Gearing::Ravigneaux {
                small,
                large,
                ring,
                carrier,
                short,
                long,
            } => json!({
                "kind": "ravigneaux", "id": id, "label": label,
                "small_sun": small.to_json(), "large_sun": large.to_json(),
                "ring": ring.to_json(), "carrier": carrier,
                "short": {"teeth": short}, "long": {"teeth": long}, "count": count,
            }),
            Gearing::SteppedSuns {
                first,
                second,
                carrier,
                pinions: [p, q],
            } => json!({
                "kind": "stepped-suns", "id": id, "label": label,
                "first_sun": first.to_json(), "second_sun": second.to_json(),
                "carrier": carrier, "first_pinion": {"teeth": p}, "second_pinion": {"teeth": q},
                "count": count,
            }),
            Gearing::Pair {
                internal,
                first,
                second,
            } => json!({
                "kind": "gear-pair", "id": id, "label": label,
                "mesh": if *internal { "internal" } else { "external" },
                "first": first.to_json(), "second": second.to_json(),
            }),
        }
    }
}
