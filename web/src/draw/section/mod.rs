//! The half-section drawing, and the columns that the lever diagram shares with it.

use levertrain_core::Train;

use super::scene::{Point, Scene};
use crate::live::Live;
use crate::wire::{Handle, StageSize};

/// Where a train's parts stand, independent of the size of the drawing.
#[derive(Debug, Clone)]
pub struct Layout {
    couplings: usize,
    elements: usize,
}

/// A layout fitted to a width.
#[derive(Debug, Clone)]
pub struct Stage {
    size: StageSize,
    columns: Vec<Column>,
    elements: usize,
}

/// Where a coupling stands along the axis, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Left end of the space its lever may fill.
    pub left: f64,
    /// Right end of that space.
    pub right: f64,
}

impl Layout {
    /// Lays a train out.
    pub fn of(train: &Train) -> Self {
        let scenario = train.scenario();
        Self {
            couplings: scenario.couplings.len(),
            elements: scenario.elements.len(),
        }
    }

    /// Fits the layout to an available width in CSS pixels.
    pub fn stage(&self, available: f64) -> Stage {
        let count = self.couplings as f64;
        let width = available.max(120.0 * count + 80.0);
        let pitch = (width - 80.0) / count;
        let columns = (0..self.couplings)
            .map(|index| {
                let left = 40.0 + pitch * index as f64;
                Column {
                    left: left + 12.0,
                    right: left + pitch - 12.0,
                }
            })
            .collect();
        let size = StageSize {
            width,
            section_height: 320.0,
            lever_height: 300.0,
        };
        Stage {
            size,
            columns,
            elements: self.elements,
        }
    }
}

impl Stage {
    /// Sizes of the drawings.
    pub fn size(&self) -> StageSize {
        self.size
    }

    /// The columns, one per coupling.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Where elements can be taken hold of.
    pub fn handles(&self, train: &Train) -> Vec<Handle> {
        (0..self.elements)
            .map(|index| Handle {
                id: train.scenario().elements[index].id().to_owned(),
                left: 20.0 + 70.0 * index as f64,
                top: 20.0,
                width: 48.0,
                height: 48.0,
                closes: (0.0, -1.0),
                travel: 14.0,
            })
            .collect()
    }

    /// The shaft drawn at a point.
    pub fn shaft_at(&self, _point: Point) -> Option<usize> {
        None
    }

    /// Draws it.
    pub fn scene(&self, _live: &Live<'_>) -> Scene {
        Scene::new(self.size.width, self.size.section_height)
    }
}
