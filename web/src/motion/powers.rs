//! The power through every member and element of a combination, ready to draw.

use levertrain_core::{Combination, PowerFlow, Torques};

/// Ideal power per unit of input power. The sums are exact in the core; here each value is the
/// nearest `f64`.
#[derive(Debug, Clone, PartialEq)]
pub struct Powers {
    /// Power into each coupling through each of its members.
    pub members: Vec<Vec<f64>>,
    /// Power that each element passes from its first end to its second.
    pub elements: Vec<f64>,
}

/// Why no power can be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPowers {
    /// The combination does not drive.
    NoDrive,
    /// More is applied than needed, so how the power divides depends on fit and elasticity.
    Undivided,
}

impl Powers {
    /// The powers of a combination.
    ///
    /// # Errors
    /// Why there are none.
    pub fn of(combination: &Combination<'_>) -> Result<Self, NoPowers> {
        let torques = Torques::of(combination).ok_or(NoPowers::NoDrive)?;
        let flow = PowerFlow::of(combination, &torques);
        let scenario = combination.train().scenario();
        let members = (0..scenario.couplings.len())
            .map(|coupling| {
                let count = combination.train().members(coupling).len();
                (0..count)
                    .map(|member| Some(flow.member(coupling, member)?.to_f64()))
                    .collect()
            })
            .collect::<Option<_>>();
        let elements = (0..scenario.elements.len())
            .map(|element| Some(flow.element(element)?.to_f64()))
            .collect::<Option<_>>();
        match (members, elements) {
            (Some(members), Some(elements)) => Ok(Self { members, elements }),
            _ => Err(NoPowers::Undivided),
        }
    }
}
