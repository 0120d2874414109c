//! Levers: where the members of a coupling stand along one, and which of them are one lever.

#[cfg(test)]
mod tests;
mod train_lever;

pub use train_lever::{LeverNode, TrainLever};

use levertrain_exact::{Fraction, Motions};

use crate::model::coupling::Coupling;

/// A coupling as a lever: one place per member, so that at any moment the speeds of the
/// members lie on one straight line over these places.
///
/// For a single-row set with S and R teeth: sun 0, carrier R/(S + R), ring 1, so that
/// sun–carrier : carrier–ring = R : S (H. L. Benford and M. B. Leising, SAE 810102, 1981).
/// It follows for any coupling from its equations: their solutions are spanned by turning as
/// one piece and one other motion, whose speeds are the places.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lever {
    /// Place of each member, in the coupling's member order, the outermost at 0 and 1.
    pub places: Vec<Fraction>,
}

impl Lever {
    /// The lever of a coupling; `None` when its equations leave more or less than two freedoms.
    pub fn of(coupling: &Coupling) -> Option<Self> {
        let facts = coupling.facts();
        let members = facts.members().len();
        let mut motions = Motions::free(members);
        for row in facts.mesh_rows() {
            let terms = row.into_iter().enumerate().collect();
            motions = motions.constrained(&terms)?;
        }
        if motions.degrees_of_freedom() != 2 {
            return None;
        }
        // With the first member at rest what is left is one motion: take another member that
        // moves in it as its unit.
        let resting = motions.constrained(&vec![(0, 1)])?;
        let raw: Vec<Fraction> = (1..members).rev().find_map(|unit| {
            let turning = resting.turning(unit);
            let places = (0..members).map(|member| turning.value(&[(member, 1)]));
            turning
                .input_can_turn()
                .then(|| places.collect::<Option<_>>())
                .flatten()
        })?;
        let places = spread_out(&raw)?;
        Some(Self { places })
    }
}

/// Places shifted and scaled so that the outermost are at 0 and 1; `None` when all coincide.
fn spread_out(raw: &[Fraction]) -> Option<Vec<Fraction>> {
    let least = raw.iter().min()?;
    let length = raw.iter().max()? - least;
    raw.iter()
        .map(|place| (place - least).over(&length))
        .collect()
}
