//! The plan of a half-section: where everything is on the grid.

use levertrain_core::{Body, Train};

use super::board::Crossing;
use super::grid::{Grid, Node};
use super::parts::{Figure, Part};

/// Where everything is on the grid.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The grid.
    pub grid: Grid,
    /// How each coupling is drawn.
    pub figures: Vec<Figure>,
    /// The members of the couplings.
    pub parts: Vec<Part>,
    /// For each shaft, the steps between neighbouring nodes that it runs along; last for what
    /// holds members of sets to the housing.
    pub runs: Vec<Vec<(Node, Node)>>,
    /// Where each element is.
    pub packs: Vec<PackPlace>,
    /// Where the input comes in and the output goes out.
    pub ends: [Node; 2],
    /// The columns where parts that are held to the housing come up to it.
    pub supports: Vec<usize>,
    /// Where members cross.
    pub crossings: Vec<Crossing>,
}

/// Where an element is on the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PackPlace {
    /// A brake hangs from the housing over this column.
    Brake {
        /// The column.
        column: usize,
    },
    /// A clutch lies between two leads; so does a brake within a carrier that is part of the housing, one lead of which is
    /// the housing's.
    Clutch {
        /// Column of the left lead; the right one is two further.
        column: usize,
        /// Row of both.
        row: usize,
        /// Whether the left lead is the element's second end.
        flipped: bool,
    },
}

/// The number of a body among what is routed: the shafts, then the housing.
pub fn member(body: Body, train: &Train) -> usize {
    match body {
        Body::Shaft(shaft) => shaft,
        Body::Housing => train.scenario().shafts.len(),
    }
}

impl PackPlace {
    /// Whether it lies between two leads.
    pub fn is_flat(&self) -> bool {
        matches!(self, Self::Clutch { .. })
    }

    /// The column of its first lead.
    pub fn first_column(&self) -> usize {
        match *self {
            Self::Brake { column } | Self::Clutch { column, .. } => column,
        }
    }

    /// The nodes that it takes up.
    pub fn nodes(&self, grid: &Grid) -> Vec<Node> {
        match *self {
            Self::Brake { column } => vec![grid.node(column, grid.brake_row())],
            Self::Clutch { column, row, .. } => {
                let columns = column..column + 3;
                columns.map(|column| grid.node(column, row)).collect()
            }
        }
    }

    /// The column of a brake.
    pub fn brake_column(&self) -> Option<usize> {
        match *self {
            Self::Brake { column } => Some(column),
            Self::Clutch { .. } => None,
        }
    }
}
