//! What the solvers read of a coupling, worked out once for a train.

use crate::model::coupling::{CouplingKind, MeshRow, Rolling};

/// The equations of a coupling, and the same as gear trains seen from a carrier.
#[derive(Debug, Clone)]
pub(crate) struct Gearing {
    /// The equations its meshes impose on its members.
    pub(crate) mesh_rows: Vec<MeshRow>,
    /// The same, in the same order, as what rolls.
    pub(crate) rolling: Vec<Rolling>,
    /// How many meshes all of these share.
    pub(crate) shared_meshes: usize,
}

impl Gearing {
    pub(super) fn of(coupling: &dyn CouplingKind) -> Self {
        Self {
            mesh_rows: coupling.mesh_rows(),
            rolling: coupling.rolling(),
            shared_meshes: coupling.shared_meshes().len(),
        }
    }

    /// How many meshes there are.
    pub(crate) fn meshes(&self) -> usize {
        let own: usize = self.rolling.iter().map(|row| row.meshes.len()).sum();
        own + self.shared_meshes
    }
}
