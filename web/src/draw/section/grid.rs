//! The grid the half-section is routed on: rows outwards from the axis, columns along it.
//!
//! Between and beside the sets lie gaps of a few columns each; a set has three columns. From
//! the axis outwards come the inner rows (shafts inside one another), the rows of the sets
//! (sun, pins, ring, with a clutch row between each), the outer rows (drums around the sets)
//! and the row brakes hang on.

/// A place on the grid.
pub type Node = usize;

/// The grid's dimensions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Grid {
    /// Couplings along the axis.
    pub sets: usize,
    /// Columns of each gap.
    pub gap_columns: usize,
    /// Rows inside the suns; row 0 is the axis.
    pub inner_rows: usize,
    /// Rows outside the rings.
    pub outer_rows: usize,
}

/// Columns of a set.
pub const SET_COLUMNS: usize = 3;

impl Grid {
    /// Number of columns.
    pub const fn columns(&self) -> usize {
        (self.sets + 1) * self.gap_columns + self.sets * SET_COLUMNS
    }

    /// Number of rows.
    pub const fn rows(&self) -> usize {
        self.inner_rows + 5 + self.outer_rows + 1
    }

    /// Number of nodes.
    pub const fn nodes(&self) -> usize {
        self.columns() * self.rows()
    }

    /// The node at a column and row.
    pub const fn node(&self, column: usize, row: usize) -> Node {
        row * self.columns() + column
    }

    /// The column of a node.
    pub const fn column(&self, node: Node) -> usize {
        node % self.columns()
    }

    /// The row of a node.
    pub const fn row(&self, node: Node) -> usize {
        node / self.columns()
    }

    /// First column of set `set`.
    pub const fn set_start(&self, set: usize) -> usize {
        (set + 1) * self.gap_columns + set * SET_COLUMNS
    }

    /// The set that a column belongs to, or that comes after the gap it is in.
    pub const fn set_at(&self, column: usize) -> usize {
        column / (self.gap_columns + SET_COLUMNS)
    }

    /// First column of the gap before set `gap`; the last gap follows the last set.
    pub const fn gap_start(&self, gap: usize) -> usize {
        gap * (self.gap_columns + SET_COLUMNS)
    }

    /// Whether a column belongs to a set.
    pub const fn in_set(&self, column: usize) -> bool {
        column % (self.gap_columns + SET_COLUMNS) >= self.gap_columns
    }

    /// Whether a column is the first or last of a set.
    pub const fn is_set_edge(&self, column: usize) -> bool {
        let within = column % (self.gap_columns + SET_COLUMNS);
        within == self.gap_columns || within == self.gap_columns + SET_COLUMNS - 1
    }

    /// The row of the suns.
    pub const fn sun_row(&self) -> usize {
        self.inner_rows
    }

    /// The clutch row between suns and pins.
    pub const fn low_row(&self) -> usize {
        self.inner_rows + 1
    }

    /// The row of the pins.
    pub const fn pin_row(&self) -> usize {
        self.inner_rows + 2
    }

    /// The clutch row between pins and rings.
    pub const fn high_row(&self) -> usize {
        self.inner_rows + 3
    }

    /// The row of the rings.
    pub const fn ring_row(&self) -> usize {
        self.inner_rows + 4
    }

    /// The row brakes hang on.
    pub const fn brake_row(&self) -> usize {
        self.rows() - 1
    }
}
