//! What must hold in a [`Sketch`], derived here from the definition of each coupling.

use std::collections::HashMap;

use num_bigint::BigInt;

use crate::elimination::{Echelon, Row};
use crate::rational::{Rational, zero};
use crate::sketch::{Coupling, Element, Gearing, HOUSING, Sketch};

/// Speeds by shaft id; a shaft that floats is missing.
pub type Speeds = HashMap<String, Rational>;

/// Integer coefficients of shaft speeds, by shaft id; the housing's count for nothing.
type Terms<'a> = Vec<(&'a str, i64)>;

/// The equations of a sketch for a choice of its parts.
#[derive(Debug)]
pub struct Laws<'a> {
    sketch: &'a Sketch,
    columns: HashMap<&'a str, usize>,
}

impl<'a> Laws<'a> {
    /// Of this sketch.
    pub fn of(sketch: &'a Sketch) -> Self {
        let columns = sketch.shafts.iter().enumerate();
        Self {
            sketch,
            columns: columns.map(|(column, id)| (id.as_str(), column)).collect(),
        }
    }

    fn row(&self, terms: Terms<'_>) -> Row {
        let mut row = vec![BigInt::ZERO; self.columns.len()];
        for (shaft, coefficient) in terms {
            if shaft != HOUSING {
                row[self.columns[shaft]] += coefficient;
            }
        }
        row
    }

    /// The equations of the couplings and elements picked, in echelon form.
    pub fn hold(
        &self,
        coupling: impl Fn(&Coupling) -> bool,
        element: impl Fn(&Element) -> bool,
    ) -> Echelon {
        let couplings = self.sketch.couplings.iter().filter(|&x| coupling(x));
        let elements = self.sketch.elements.iter().filter(|&x| element(x));
        let meshes = couplings.map(|x| self.row(mesh_terms(&x.gearing)));
        Echelon::of(meshes.chain(elements.map(|x| self.slip(x))))
    }

    /// The expression "speed of this shaft".
    pub fn speed(&self, shaft: &str) -> Row {
        self.row(vec![(shaft, 1)])
    }

    /// The expression "slip of this element".
    pub fn slip(&self, element: &Element) -> Row {
        let [first, second] = &element.ends;
        self.row(vec![(first, 1), (second, -1)])
    }

    /// Whether `value` is what `expression` has per input turn under `laws`; `None` stands for
    /// "not determined", and zero is all that is left where the input cannot turn.
    pub fn is_value(&self, laws: &Echelon, expression: Row, value: Option<&Rational>) -> bool {
        let input = self.speed(&self.sketch.input);
        let Some(value) = value else {
            // Not determined: with the input at rest it can still be anything.
            return !laws.with(input).implies(expression);
        };
        let difference = expression
            .into_iter()
            .zip(input)
            .map(|(own, input)| own * value.denom() - input * value.numer());
        laws.implies(difference.collect())
    }
}

/// S·(ωs − ωc) ± R·(ωr − ωc) = 0 and the like: pitch-line speeds seen from the carrier, the
/// pinions between passing them on, each external mesh turning the sign.
fn mesh_terms(gearing: &Gearing) -> Terms<'_> {
    match gearing {
        Gearing::Planetary {
            sun, ring, carrier, ..
        } => {
            let (s, r) = (i64::from(sun.teeth), i64::from(ring.teeth));
            vec![
                (&sun.shaft, s),
                (carrier, -s),
                (&ring.shaft, r),
                (carrier, -r),
            ]
        }
        Gearing::DoublePinion {
            sun, ring, carrier, ..
        } => {
            let (s, r) = (i64::from(sun.teeth), i64::from(ring.teeth));
            vec![
                (&sun.shaft, s),
                (carrier, -s),
                (&ring.shaft, -r),
                (carrier, r),
            ]
        }
        Gearing::Pair {
            internal,
            first,
            second,
        } => {
            let sign = if *internal { -1 } else { 1 };
            let (a, b) = (i64::from(first.teeth), sign * i64::from(second.teeth));
            vec![(&first.shaft, a), (&second.shaft, b)]
        }
    }
}

/// Speed of a shaft, zero for the housing.
pub fn speed_of(speeds: &Speeds, shaft: &str) -> Option<Rational> {
    if shaft == HOUSING {
        return Some(zero());
    }
    speeds.get(shaft).cloned()
}

/// Speeds of the pinions about their pins, in order from sun to ring, each found both from the
/// sun's side and from the ring's. `None` where a speed is not determined on that side.
pub fn pinion_spins(gearing: &Gearing, speeds: &Speeds) -> Vec<[Option<Rational>; 2]> {
    let quotient = |a: u32, b: u32| Rational::new(a.into(), b.into());
    let relative =
        |gear: &str, carrier: &str| Some(speed_of(speeds, gear)? - speed_of(speeds, carrier)?);
    match gearing {
        Gearing::Planetary {
            sun,
            ring,
            carrier,
            pinion,
        } => vec![[
            relative(&sun.shaft, carrier).map(|x| -x * quotient(sun.teeth, *pinion)),
            relative(&ring.shaft, carrier).map(|x| x * quotient(ring.teeth, *pinion)),
        ]],
        Gearing::DoublePinion {
            sun,
            ring,
            carrier,
            inner,
            outer,
        } => {
            let inner_by_sun =
                relative(&sun.shaft, carrier).map(|x| -x * quotient(sun.teeth, *inner));
            let outer_by_ring =
                relative(&ring.shaft, carrier).map(|x| x * quotient(ring.teeth, *outer));
            let outer_by_sun = inner_by_sun.clone().map(|x| -x * quotient(*inner, *outer));
            let inner_by_ring = outer_by_ring.clone().map(|x| -x * quotient(*outer, *inner));
            vec![[inner_by_sun, inner_by_ring], [outer_by_sun, outer_by_ring]]
        }
        Gearing::Pair { .. } => Vec::new(),
    }
}

/// What is left over in a coupling's equation; `None` where a speed in it is not determined.
pub fn mesh_residual(gearing: &Gearing, speeds: &Speeds) -> Option<Rational> {
    mesh_terms(gearing)
        .into_iter()
        .try_fold(zero(), |sum, (shaft, k)| {
            Some(sum + speed_of(speeds, shaft)? * BigInt::from(k))
        })
}
