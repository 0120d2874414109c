//! Why a train is tied up, or its output held: a smallest set of applied elements and couplings
//! that does it.

use levertrain_exact::{Motions, Terms};

use crate::base::element_set::ElementSet;
use crate::solve::fewest::fewest_holding;
use crate::solve::narrowed;
use crate::train::Train;

/// Elements and couplings that together keep the input from turning, or the output. Leaving any
/// one of them out would free it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fight {
    /// The applied elements; no smaller set of the applied ones does it.
    pub elements: ElementSet,
    /// Indices of the couplings through which they fight; none of them can be left out.
    pub couplings: Vec<usize>,
}

impl Fight {
    /// Finds one in a train in which `applied` holds `shaft` still: the input where the train is
    /// tied up, or else the output.
    pub(crate) fn find(train: &Train, applied: ElementSet, shaft: usize) -> Self {
        let mut couplings: Vec<usize> = (0..train.scenario().couplings.len()).collect();
        let members: Vec<usize> = applied.iter().collect();
        let slips: Vec<Terms> = members
            .iter()
            .map(|&x| train.slip_terms(x).clone())
            .collect();
        let elements = match fewest_holding(train.coupled(), shaft, &slips) {
            Some(bits) => {
                let chosen = ElementSet::from_bits(bits).iter();
                chosen.map(|index| members[index]).collect()
            }
            None => applied,
        };
        for coupling in (0..couplings.len()).rev() {
            let mut fewer = couplings.clone();
            fewer.retain(|&kept| kept != coupling);
            let coupled = train.coupled_by(|coupling| fewer.contains(&coupling));
            if holds(train, elements, &coupled, shaft) {
                couplings = fewer;
            }
        }
        Self {
            elements,
            couplings,
        }
    }
}

fn holds(train: &Train, applied: ElementSet, coupled: &Motions, shaft: usize) -> bool {
    let (motions, _) = narrowed(coupled, train, applied);
    !motions.turning(shaft).input_can_turn()
}
