//! A gear train as plain data of the tests' own, to write as a scenario or to derive by hand.
//!
//! Nothing of the core is used here, so what is derived from a sketch is independent of it.

use levertrain_core::Train;
use serde_json::{Value, json};

pub use crate::gearing::{Coupling, Gear, Gearing};

/// The id that stands for the housing wherever a shaft is named.
pub const HOUSING: &str = "housing";

/// A shift element between two bodies; a brake's second end is the housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// Its id.
    pub id: String,
    /// Ids of what it joins.
    pub ends: [String; 2],
}

/// A gear train. The methods build one up; each returns the longer train.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sketch {
    /// Id of the input shaft.
    pub input: String,
    /// Id of the output shaft.
    pub output: String,
    /// Ids of the shafts.
    pub shafts: Vec<String>,
    /// The gear sets and pairs.
    pub couplings: Vec<Coupling>,
    /// The clutches and brakes.
    pub elements: Vec<Element>,
    /// Id and applied elements of each range.
    pub ranges: Vec<(String, Vec<String>)>,
}

impl Sketch {
    /// A train with these two shafts and nothing between them. Other shafts are added as they
    /// are mentioned.
    pub fn new(input: &str, output: &str) -> Self {
        let mut sketch = Self {
            input: input.to_owned(),
            output: output.to_owned(),
            shafts: Vec::new(),
            couplings: Vec::new(),
            elements: Vec::new(),
            ranges: Vec::new(),
        };
        sketch.mention(input);
        sketch.mention(output);
        sketch
    }

    fn mention(&mut self, shaft: &str) {
        if shaft != HOUSING && !self.shafts.iter().any(|known| known == shaft) {
            self.shafts.push(shaft.to_owned());
        }
    }

    fn coupling(mut self, id: &str, gearing: Gearing) -> Self {
        for shaft in gearing.shafts() {
            self.mention(shaft);
        }
        self.couplings.push(Coupling {
            id: id.to_owned(),
            gearing,
            count: 3,
        });
        self
    }

    /// Adds a single-row set.
    #[must_use]
    pub fn planetary(
        self,
        id: &str,
        sun: (&str, u32),
        ring: (&str, u32),
        carrier: &str,
        pinion: u32,
    ) -> Self {
        let gearing = Gearing::Planetary {
            sun: sun.into(),
            ring: ring.into(),
            carrier: carrier.to_owned(),
            pinion,
        };
        self.coupling(id, gearing)
    }

    /// Adds a set with two pinion rows in series; `pinions` are the inner and the outer teeth.
    #[must_use]
    pub fn double_pinion(
        self,
        id: &str,
        sun: (&str, u32),
        ring: (&str, u32),
        carrier: &str,
        pinions: (u32, u32),
    ) -> Self {
        let gearing = Gearing::DoublePinion {
            sun: sun.into(),
            ring: ring.into(),
            carrier: carrier.to_owned(),
            inner: pinions.0,
            outer: pinions.1,
        };
        self.coupling(id, gearing)
    }

    /// Adds a set with stepped pinions; `pinions` are the teeth on the sun and in the ring.
    #[must_use]
    pub fn stepped(
        self,
        id: &str,
        sun: (&str, u32),
        ring: (&str, u32),
        carrier: &str,
        pinions: (u32, u32),
    ) -> Self {
        let gearing = Gearing::Stepped {
            sun: sun.into(),
            ring: ring.into(),
            carrier: carrier.to_owned(),
            sun_pinion: pinions.0,
            ring_pinion: pinions.1,
        };
        self.coupling(id, gearing)
    }

    /// Adds two suns on stepped pinions; `pinions` are the teeth on the first and the second.
    #[must_use]
    pub fn stepped_suns(
        self,
        id: &str,
        suns: [(&str, u32); 2],
        carrier: &str,
        pinions: [u32; 2],
    ) -> Self {
        let [first, second] = suns.map(Gear::from);
        let gearing = Gearing::SteppedSuns {
            first,
            second,
            carrier: carrier.to_owned(),
            pinions,
        };
        self.coupling(id, gearing)
    }

    /// Adds a Ravigneaux set; `suns` are the small and the large one, `pinions` the teeth of the
    /// short and the long ones.
    #[must_use]
    pub fn ravigneaux(
        self,
        id: &str,
        suns: [(&str, u32); 2],
        ring: (&str, u32),
        carrier: &str,
        pinions: (u32, u32),
    ) -> Self {
        let [small, large] = suns.map(Gear::from);
        let gearing = Gearing::Ravigneaux {
            small,
            large,
            ring: ring.into(),
            carrier: carrier.to_owned(),
            short: pinions.0,
            long: pinions.1,
        };
        self.coupling(id, gearing)
    }

    /// Adds an external or internal pair.
    #[must_use]
    pub fn pair(self, id: &str, internal: bool, first: (&str, u32), second: (&str, u32)) -> Self {
        let gearing = Gearing::Pair {
            internal,
            first: first.into(),
            second: second.into(),
        };
        self.coupling(id, gearing)
    }

    /// Gives the last coupling another number of pinions in a row.
    #[must_use]
    pub fn pinions(mut self, count: u32) -> Self {
        if let Some(coupling) = self.couplings.last_mut() {
            coupling.count = count;
        }
        self
    }

    /// Adds a brake.
    #[must_use]
    pub fn brake(self, id: &str, shaft: &str) -> Self {
        self.element(id, shaft, HOUSING)
    }

    /// Adds a clutch.
    #[must_use]
    pub fn clutch(self, id: &str, first: &str, second: &str) -> Self {
        self.element(id, first, second)
    }

    fn element(mut self, id: &str, first: &str, second: &str) -> Self {
        self.mention(first);
        self.mention(second);
        self.elements.push(Element {
            id: id.to_owned(),
            ends: [first.to_owned(), second.to_owned()],
        });
        self
    }

    /// Adds a range.
    #[must_use]
    pub fn range(mut self, id: &str, applied: &[&str]) -> Self {
        let applied = applied.iter().map(|&x| x.to_owned()).collect();
        self.ranges.push((id.to_owned(), applied));
        self
    }

    /// The sketch as a scenario file.
    pub fn to_json(&self) -> Value {
        let shafts = self.shafts.iter();
        let shafts = shafts.map(|id| json!({"id": id, "label": format!("Shaft {id}")}));
        let couplings = self.couplings.iter().map(Coupling::to_json);
        let elements = self.elements.iter().map(Element::to_json);
        let ranges = self.ranges.iter().map(
            |(id, applied)| json!({"id": id, "label": format!("Range {id}"), "applied": applied}),
        );
        json!({
            "format": 1,
            "name": "Sketch",
            "input": self.input,
            "output": self.output,
            "shafts": shafts.collect::<Value>(),
            "couplings": couplings.collect::<Value>(),
            "elements": elements.collect::<Value>(),
            "ranges": ranges.collect::<Value>(),
        })
    }

    /// The sketch as the core reads it.
    ///
    /// # Panics
    /// Where the core finds a problem: a sketch is meant to be valid.
    #[track_caller]
    pub fn train(&self) -> Train {
        let text = self.to_json().to_string();
        Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:#?}\nin {text}"))
    }
}

impl Element {
    /// Whether it holds a shaft to the housing.
    pub fn is_brake(&self) -> bool {
        self.ends[1] == HOUSING
    }

    fn to_json(&self) -> Value {
        let (id, label) = (&self.id, format!("Element {}", self.id));
        if self.is_brake() {
            json!({"kind": "brake", "id": id, "label": label, "shaft": self.ends[0]})
        } else {
            json!({"kind": "clutch", "id": id, "label": label, "between": self.ends})
        }
    }
}
