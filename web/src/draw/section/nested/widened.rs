//! Where the columns and rows of a grid are on another one with more room.

use crate::draw::section::grid::{Grid, Node, SET_COLUMNS};

/// How many rows are free beside every one in use.
const FREE_ROWS: usize = 1;
/// Columns that a gap has to spare: a clutch finds room in it.
const SPARE: usize = 4;

/// What is in use of a grid, and where it goes.
pub struct Widened {
    pub from: Grid,
    pub to: Grid,
    pub columns: Vec<usize>,
    pub rows: Vec<usize>,
}

impl Widened {
    /// With so many free columns beside each in use.
    pub fn of(from: Grid, columns: &[bool], rows: &[bool], free: usize) -> Self {
        let in_use = |all: &[bool], from: usize, to: usize| -> Vec<usize> {
            (from..to).filter(|&at| all[at]).collect()
        };
        let gap = |gap: usize| {
            let start = from.gap_start(gap);
            in_use(columns, start, start + from.gap_columns)
        };
        let gaps: Vec<Vec<usize>> = (0..=from.sets).map(gap).collect();
        let most = gaps.iter().map(Vec::len).max().unwrap_or(0);
        let inner = in_use(rows, 0, from.inner_rows);
        let outer = in_use(rows, from.ring_row() + 1, from.brake_row());
        let to = Grid {
            sets: from.sets,
            gap_columns: (most + 1) * (free + 1) - 1 + SPARE,
            inner_rows: (inner.len() + 1) * (FREE_ROWS + 1) + 1,
            outer_rows: (outer.len() + 1) * (FREE_ROWS + 1),
        };
        Self {
            from,
            to,
            columns: widened_columns(&from, &to, &gaps),
            rows: widened_rows(&from, &to, [&inner, &outer]),
        }
    }

    pub fn node(&self, node: Node) -> Node {
        let (column, row) = (self.from.column(node), self.from.row(node));
        self.to.node(self.columns[column], self.rows[row])
    }
}

fn widened_columns(from: &Grid, to: &Grid, gaps: &[Vec<usize>]) -> Vec<usize> {
    let mut columns = Vec::new();
    for (gap, used) in gaps.iter().enumerate() {
        let (start, new) = (from.gap_start(gap), to.gap_start(gap));
        let apart = (to.gap_columns + 1) / (used.len() + 1);
        for at in 0..from.gap_columns {
            let upto = used.iter().filter(|&&column| column <= start + at).count();
            let is_used = used.contains(&(start + at));
            // Lines that only pass along a row reach to the edges, and to whatever comes before.
            columns.push(match upto {
                _ if at + 1 == from.gap_columns && !is_used => new + to.gap_columns - 1,
                0 => new,
                upto => new + upto * apart - 1,
            });
        }
        if gap < from.sets {
            columns.extend((0..SET_COLUMNS).map(|step| to.set_start(gap) + step));
        }
    }
    columns
}

fn widened_rows(from: &Grid, to: &Grid, [inner, outer]: [&[usize]; 2]) -> Vec<usize> {
    let upto = |used: &[usize], row: usize| used.iter().filter(|&&at| at <= row).count();
    let row = |row: usize| match row {
        _ if row < from.sun_row() => (upto(inner, row) * (FREE_ROWS + 1)).saturating_sub(1),
        _ if row <= from.ring_row() => to.sun_row() + row - from.sun_row(),
        _ if row < from.brake_row() => to.ring_row() + upto(outer, row) * (FREE_ROWS + 1),
        _ => to.brake_row(),
    };
    (0..from.rows()).map(row).collect()
}
