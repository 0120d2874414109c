//! How often teeth meet, exactly: the orders that a mesh hums at.

use levertrain_exact::Fraction;

use crate::model::coupling::ToothMesh;
use crate::solve::{Combination, State};

/// How often the teeth of a mesh meet. A value is `None` where it is not determined.
///
/// Seen from the carrier c the teeth of a gear with Z teeth pass a mesh at Z·|ω − ωc| per input
/// turn, which is the order of the mesh (Z·ω for gears on fixed axes; from memory, as in any text
/// on gear noise). Its frequency in Hz at n rev/min of the input is order · n / 60. Per output turn
/// the order is that divided by the size of the output's speed; there is none where the output
/// stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeshOrder {
    /// Which mesh.
    pub mesh: ToothMesh,
    /// Tooth meetings per input turn.
    pub per_input: Option<Fraction>,
    /// Tooth meetings per output turn.
    pub per_output: Option<Fraction>,
}

impl Combination<'_> {
    /// The orders of the meshes of coupling `coupling`, in the order of
    /// [`CouplingKind::meshes`]; all undetermined when the input cannot turn.
    ///
    /// [`CouplingKind::meshes`]: crate::model::coupling::CouplingKind::meshes
    pub fn mesh_orders(&self, coupling: usize) -> Vec<MeshOrder> {
        let facts = self.train().scenario().couplings[coupling].facts();
        let (members, bodies) = (facts.members(), self.train().members(coupling));
        // All rows of a coupling are seen from one carrier.
        let carrier = facts.rolling().first().map(|row| row.carrier);
        let turns = *self.state() != State::TiedUp;
        let output = self.shaft_speed(self.train().output());
        let order = |mesh: &ToothMesh| {
            let teeth = members[mesh.paced_by].teeth?.coefficient();
            // The difference may be determined though neither speed is.
            let speed =
                self.weighted_speed([(bodies[mesh.paced_by], 1), (bodies[carrier?], -1)])?;
            Some(&speed.abs() * &Fraction::from(teeth))
        };
        let meshes = facts.meshes().into_iter();
        meshes
            .map(|mesh| {
                let per_input = order(&mesh).filter(|_| turns);
                let per_output = per_input.as_ref().zip(output.as_ref());
                let per_output = per_output.and_then(|(order, speed)| order.over(&speed.abs()));
                MeshOrder {
                    mesh,
                    per_input,
                    per_output,
                }
            })
            .collect()
    }
}
