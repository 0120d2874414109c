//! What must hold in a [`Sketch`], derived here from the definition of each coupling.

use std::collections::HashMap;

use num_bigint::BigInt;

use crate::elimination::{Echelon, Row};
use crate::rational::{Rational, zero};
use crate::sketch::{Coupling, Element, Gear, Gearing, HOUSING, Sketch};

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
        let meshes = couplings.flat_map(|x| mesh_terms(&x.gearing));
        let meshes = meshes.map(|terms| self.row(terms));
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

/// za·(ωa − ωc) + zb·(ωb − ωc) with the teeth of two gears times a factor each.
fn seen_from<'a>(
    carrier: &'a str,
    (a, factor): (&'a Gear, i64),
    (b, other): (&'a Gear, i64),
) -> Terms<'a> {
    let (za, zb) = (factor * i64::from(a.teeth), other * i64::from(b.teeth));
    vec![
        (a.shaft.as_str(), za),
        (carrier, -za),
        (b.shaft.as_str(), zb),
        (carrier, -zb),
    ]
}

/// S·(ωs − ωc) ± R·(ωr − ωc) = 0 and the like: pitch-line speeds seen from the carrier, the
/// pinions between passing them on, each external mesh turning the sign.
fn mesh_terms(gearing: &Gearing) -> Vec<Terms<'_>> {
    match gearing {
        Gearing::Planetary {
            sun, ring, carrier, ..
        } => vec![seen_from(carrier, (sun, 1), (ring, 1))],
        Gearing::DoublePinion {
            sun, ring, carrier, ..
        } => vec![seen_from(carrier, (sun, 1), (ring, -1))],
        // The steps turn alike, so pitch lines run at speeds in proportion to their teeth.
        Gearing::Stepped {
            sun,
            ring,
            carrier,
            sun_pinion,
            ring_pinion,
        } => {
            let (p, q) = (i64::from(*sun_pinion), i64::from(*ring_pinion));
            vec![seen_from(carrier, (sun, q), (ring, p))]
        }
        Gearing::SteppedSuns {
            first,
            second,
            carrier,
            pinions: [p, q],
        } => {
            let (p, q) = (i64::from(*p), i64::from(*q));
            vec![seen_from(carrier, (first, q), (second, -p))]
        }
        Gearing::Ravigneaux {
            small,
            large,
            ring,
            carrier,
            ..
        } => vec![
            seen_from(carrier, (small, 1), (ring, -1)),
            seen_from(carrier, (small, 1), (large, 1)),
        ],
        Gearing::Pair {
            internal,
            first,
            second,
        } => {
            let sign = if *internal { -1 } else { 1 };
            let (a, b) = (i64::from(first.teeth), sign * i64::from(second.teeth));
            vec![vec![(&first.shaft, a), (&second.shaft, b)]]
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
/// sun's side and from the ring's, or the second sun's. `None` where a speed is not determined on that side.
pub fn pinion_spins(gearing: &Gearing, speeds: &Speeds) -> Vec<[Option<Rational>; 2]> {
    let quotient = |a: u32, b: u32| Rational::new(a.into(), b.into());
    let relative =
        |gear: &str, carrier: &str| Some(speed_of(speeds, gear)? - speed_of(speeds, carrier)?);
    // A pinion that rolls on a sun, or in a ring.
    let on = |sun: &Gear, carrier: &str, pinion: u32| {
        relative(&sun.shaft, carrier).map(|x| -x * quotient(sun.teeth, pinion))
    };
    let within = |ring: &Gear, carrier: &str, pinion: u32| {
        relative(&ring.shaft, carrier).map(|x| x * quotient(ring.teeth, pinion))
    };
    match gearing {
        Gearing::Planetary {
            sun,
            ring,
            carrier,
            pinion,
        } => vec![[on(sun, carrier, *pinion), within(ring, carrier, *pinion)]],
        Gearing::DoublePinion {
            sun,
            ring,
            carrier,
            inner,
            outer,
        } => {
            let inner_by_sun = on(sun, carrier, *inner);
            let outer_by_ring = within(ring, carrier, *outer);
            let outer_by_sun = inner_by_sun.clone().map(|x| -x * quotient(*inner, *outer));
            let inner_by_ring = outer_by_ring.clone().map(|x| -x * quotient(*outer, *inner));
            vec![[inner_by_sun, inner_by_ring], [outer_by_sun, outer_by_ring]]
        }
        Gearing::Stepped {
            sun,
            ring,
            carrier,
            sun_pinion,
            ring_pinion,
        } => vec![[
            on(sun, carrier, *sun_pinion),
            within(ring, carrier, *ring_pinion),
        ]],
        Gearing::Ravigneaux {
            small,
            large,
            ring,
            carrier,
            short,
            long,
        } => {
            let short_by_sun = on(small, carrier, *short);
            let long_by_ring = within(ring, carrier, *long);
            let long_by_sun = on(large, carrier, *long);
            let short_by_ring = long_by_ring.clone().map(|x| -x * quotient(*long, *short));
            vec![[short_by_sun, short_by_ring], [long_by_sun, long_by_ring]]
        }
        Gearing::SteppedSuns {
            first,
            second,
            carrier,
            pinions: [p, q],
        } => vec![[on(first, carrier, *p), on(second, carrier, *q)]],
        Gearing::Pair { .. } => Vec::new(),
    }
}

/// What is left over in each of a coupling's equations; `None` where a speed in it is not
/// determined.
pub fn mesh_residuals(gearing: &Gearing, speeds: &Speeds) -> Vec<Option<Rational>> {
    let equations = mesh_terms(gearing).into_iter();
    equations
        .map(|terms| {
            terms.into_iter().try_fold(zero(), |sum, (shaft, k)| {
                Some(sum + speed_of(speeds, shaft)? * BigInt::from(k))
            })
        })
        .collect()
}
