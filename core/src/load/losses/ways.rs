//! The ways that rolling power takes through the meshes, and what is lost on them.

use crate::model::coupling::Rolling;
use crate::train::Body;

/// A gear train seen from its carrier, whose rolling power has one direction.
pub(super) struct Way {
    pub(super) coupling: usize,
    /// Number of its meshes.
    pub(super) meshes: usize,
    /// Product of their efficiencies.
    pub(super) basic: f64,
    /// η₀^w, for power forwards and for power backwards.
    pub(super) efficiencies: [f64; 2],
}

impl Way {
    /// One that nothing turns in, when `still`, loses nothing.
    pub(super) fn of(coupling: usize, meshes: usize, basic: f64, still: bool) -> Self {
        Self {
            coupling,
            meshes,
            basic,
            efficiencies: if still {
                [1.0; 2]
            } else {
                [basic, 1.0 / basic]
            },
        }
    }

    /// η₀^w, with w from a bit: set for −1.
    pub(super) fn efficiency(&self, backwards: bool) -> f64 {
        self.efficiencies[usize::from(backwards)]
    }

    /// Writes the losses of its meshes in order, when `rolling` goes in at the first.
    pub(super) fn write_losses(&self, eta: f64, rolling: f64, into: &mut [f64]) {
        if rolling >= 0.0 {
            write_series(into.iter_mut(), rolling, eta);
        } else {
            // Driven from behind: what comes out at the first has passed every mesh.
            write_series(into.iter_mut().rev(), -rolling / self.basic, eta);
        }
    }
}

/// Writes what is lost of `power` in one mesh after the other.
fn write_series<'m>(meshes: impl Iterator<Item = &'m mut f64>, mut power: f64, eta: f64) {
    for loss in meshes {
        *loss = power * (1.0 - eta);
        power *= eta;
    }
}

/// One mesh row, ready for the equilibrium.
pub(super) struct Row<'a> {
    pub(super) rolling: &'a Rolling,
    /// What the members a and b and the carrier are part of.
    pub(super) bodies: [Body; 3],
    /// Factors of the members a and b.
    pub(super) factors: (f64, f64),
    /// ωa − ωc.
    pub(super) speed: f64,
    /// Index of its own way, and of that shared with other rows of its coupling.
    pub(super) ways: (usize, Option<usize>),
    /// Where its own meshes begin among those of its coupling.
    pub(super) first_mesh: usize,
}

impl Row<'_> {
    /// Torque on the bodies per unit of its λ, with this efficiency of its meshes.
    pub(super) fn shares(&self, efficiency: f64) -> [f64; 3] {
        let (a, b) = (self.factors.0, self.factors.1 * efficiency);
        [a, b, -(a + b)]
    }
}

/// Directions of the ways: a bit is set where power goes backwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Directions(u64);

impl Directions {
    /// Those in which power goes backwards along the ways whose bits are set.
    pub(super) const fn of(backwards: u64) -> Self {
        Self(backwards)
    }

    /// Whether power goes backwards along a way.
    pub(super) const fn is_backwards(self, way: usize) -> bool {
        self.0 >> way & 1 == 1
    }
}
