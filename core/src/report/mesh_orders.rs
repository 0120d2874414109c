//! How often teeth meet as plain data.

use serde::Serialize;

use super::{Exact, exact};
use crate::load::mesh_orders::MeshOrder;

/// The order of a mesh: times n / 60 it is a frequency in Hz at n rev/min. `null` is what is not
/// determined, or a standing output.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct MeshOrderReport {
    /// Which mesh.
    pub mesh: &'static str,
    /// Tooth meetings per input turn.
    pub per_input: Option<Exact>,
    /// Tooth meetings per output turn.
    pub per_output: Option<Exact>,
}

impl From<MeshOrder> for MeshOrderReport {
    fn from(order: MeshOrder) -> Self {
        Self {
            mesh: order.mesh.name(),
            per_input: exact(order.per_input),
            per_output: exact(order.per_output),
        }
    }
}
