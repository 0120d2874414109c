//! Shifts and chains as plain data.

use serde::Serialize;

use super::{Bounds, Chain, Chains, Graph, Shift, Swap};
use crate::base::element_set::ElementSet;
use crate::report::Exact;
use crate::train::Train;

/// What shifts a train has.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Shifts"))]
pub struct ShiftsReport {
    /// How many combinations drive with nothing to spare, or are named.
    pub combinations: usize,
    /// The shifts between named ranges that drive, in the order of the ranges.
    pub shifts: Vec<SwapReport>,
}

/// A shift from one named range to another.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "RangeShift"))]
pub struct SwapReport {
    /// Id of the range that it begins in.
    pub from: String,
    /// Id of the range that it leads to.
    pub to: String,
    /// `same`, `alone`, `single`, `double` or `more`: how much is released and applied.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"same\" | \"alone\" | \"single\" | \"double\" | \"more\"")
    )]
    pub kind: &'static str,
    /// Ids of what is released.
    pub released: Vec<String>,
    /// Ids of what is applied.
    pub applied: Vec<String>,
    /// The ratio before over that after; `null` where the output turns round.
    pub step: Option<Exact>,
    /// Whether it skips no range.
    pub next: bool,
}

/// The ranges that a train could have.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Chains"))]
pub struct ChainsReport {
    /// Best first; none where no step is within the bounds.
    pub chains: Vec<ChainReport>,
    /// Whether they were all looked for: otherwise there are too many, and none is told.
    pub complete: bool,
}

/// A row of ranges that a train could have.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Chain"))]
pub struct ChainReport {
    /// Its combinations, the largest ratio first.
    pub nodes: Vec<NodeReport>,
    /// The largest ratio over the smallest.
    pub spread: Exact,
    /// The steps from one to the next.
    pub steps: Vec<Exact>,
    /// How much they vary: 1 where all are the same.
    pub variation: Exact,
}

/// A combination that drives.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "ChainNode"))]
pub struct NodeReport {
    /// Its place in the order of all.
    pub node: usize,
    /// Ids of what is applied.
    pub applied: Vec<String>,
    /// Input speed over output speed.
    pub ratio: Exact,
    /// What people call the ranges that it is.
    pub labels: Vec<String>,
}

impl ShiftsReport {
    /// The shifts of a train whose graph this is.
    pub fn of(train: &Train, graph: &Graph) -> Self {
        let id = |range: usize| train.scenario().ranges[range].id.clone();
        let shifts = Shift::all(graph);
        let shifts = shifts.iter().map(|shift| {
            let Swap { released, applied } = shift.swap;
            SwapReport {
                from: id(shift.from),
                to: id(shift.to),
                kind: shift.swap.kind().key(),
                released: ids(train, released),
                applied: ids(train, applied),
                step: shift.step.as_ref().map(Exact::from),
                next: shift.is_next,
            }
        });
        Self {
            combinations: graph.nodes().len(),
            shifts: shifts.collect(),
        }
    }
}

impl ChainsReport {
    /// The best chains of a train whose graph this is.
    pub fn of(train: &Train, graph: &Graph, bounds: &Bounds) -> Self {
        let Chains {
            chains,
            is_complete,
        } = Chains::best(graph, bounds);
        Self {
            chains: chains
                .iter()
                .map(|chain| ChainReport::of(train, graph, chain))
                .collect(),
            complete: is_complete,
        }
    }
}

impl ChainReport {
    fn of(train: &Train, graph: &Graph, chain: &Chain) -> Self {
        let nodes = chain.nodes.iter();
        Self {
            nodes: nodes
                .map(|&node| NodeReport::of(train, graph, node))
                .collect(),
            spread: Exact::from(&chain.spread()),
            steps: chain.steps.iter().map(Exact::from).collect(),
            variation: Exact::from(&chain.variation),
        }
    }
}

impl NodeReport {
    /// A node of the graph of a train.
    pub fn of(train: &Train, graph: &Graph, node: usize) -> Self {
        let known = &graph.nodes()[node];
        let ranges = known.ranges.iter();
        Self {
            node,
            applied: ids(train, known.applied),
            ratio: Exact::from(&known.ratio),
            labels: ranges
                .map(|&range| train.scenario().ranges[range].label.clone())
                .collect(),
        }
    }
}

fn ids(train: &Train, set: ElementSet) -> Vec<String> {
    let elements = set
        .iter()
        .map(|element| &train.scenario().elements[element]);
    elements.map(|element| element.id().to_owned()).collect()
}
