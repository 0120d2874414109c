//! Rows of names, and blocks of circles under them.

use super::View;
use super::plan::{APART, Arcs, BOX, Line, Spot, is_arc};
use crate::draw::scene::Bounds;

/// A block of circles is at most this part of the width.
const WIDEST: f64 = 0.35;

/// Where a part of the drawing begins, how wide it is, and the least distance of two nodes, in CSS pixels.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    pub top: f64,
    pub width: f64,
    pub reach: f64,
}

/// Puts the spots of a part into rows from the top on: arcs, names, arcs, circles. Where that ends is returned, and the
/// blocks of circles are put with the others.
pub(super) fn stack(
    view: &View<'_>,
    spots: &mut [Spot],
    part: &[usize],
    lines: &[Line],
    arcs: &Arcs,
    room: &Room,
    blocks: &mut Vec<Bounds>,
) -> f64 {
    let (named, others): (Vec<usize>, Vec<usize>) = part
        .iter()
        .copied()
        .partition(|&place| spots[place].name.is_some());
    let highest = |is_above: bool, spots: &[Spot]| {
        let own = lines
            .iter()
            .filter(|line| line.ends.iter().all(|end| named.contains(end)));
        let own = own.filter(|line| line.kind.is_single() == is_above);
        let ends = own.map(|line| line.ends.map(|end| &spots[end]));
        let ends = ends.filter(|[one, other]| is_arc(one, other));
        ends.map(|[one, other]| arcs.rise(one, other, is_above))
            .fold(0.0, f64::max)
    };
    let (above, below) = (highest(true, spots), highest(false, spots));
    let mut y = rows(spots, &named, room.top + above, room.reach) + below;
    if !others.is_empty() {
        let below = Room {
            top: y + APART / 2.0,
            ..*room
        };
        y = in_blocks(view, spots, &others, &below, blocks);
    }
    y + APART
}

/// Puts names into as few rows as they need one after the other, each in the first that has room for it.
fn rows(spots: &mut [Spot], places: &[usize], top: f64, reach: f64) -> f64 {
    let row = BOX.max(reach) + APART;
    // How far each row is taken, from the left: nodes come in the order of their ratios.
    let mut taken: Vec<f64> = Vec::new();
    for &place in places {
        let spot = &mut spots[place];
        let half = spot.width.max(reach) / 2.0;
        let free = |end: &f64| end + APART <= spot.centre.x - half;
        let index = taken.iter().position(free).unwrap_or(taken.len());
        if index == taken.len() {
            taken.push(f64::NEG_INFINITY);
        }
        taken[index] = spot.centre.x + half;
        spot.centre.y = top + row * (index as f64 + 0.5);
    }
    top + row * taken.len() as f64
}

/// A block that has its place: first row and the one after its last, left and right edge.
type Taken = ([usize; 2], [f64; 2]);

/// Puts circles into their places, those of one ratio beside each other in a block about where they belong.
fn in_blocks(
    view: &View<'_>,
    spots: &mut [Spot],
    places: &[usize],
    room: &Room,
    blocks: &mut Vec<Bounds>,
) -> f64 {
    let cell = BOX.max(room.reach);
    let most = (room.width * WIDEST / cell).max(1.0) as usize;
    let ratio = |place: usize, spots: &[Spot]| &view.graph.nodes()[spots[place].node].ratio;
    let mut taken: Vec<Taken> = Vec::new();
    let mut rest = places;
    while let Some(&first) = rest.first() {
        let alike = |place: &&usize| ratio(**place, spots) == ratio(first, spots);
        let count = rest.iter().take_while(alike).count();
        let (group, others) = rest.split_at(count);
        rest = others;
        // About as wide as high.
        let columns = (1..=most).find(|columns| columns * columns >= count);
        let columns = columns.unwrap_or(most);
        let deep = count.div_ceil(columns);
        let wide = columns as f64 * cell;
        let left = (spots[first].centre.x - wide / 2.0).clamp(0.0, (room.width - wide).max(0.0));
        let across = [left, left + wide];
        let row = first_free(&taken, across, deep);
        taken.push(([row, row + deep], across));
        let top = room.top + row as f64 * cell;
        for (index, &place) in group.iter().enumerate() {
            let (column, down) = (index % columns, index / columns);
            spots[place].centre.x = left + (column as f64 + 0.5) * cell;
            spots[place].centre.y = top + (down as f64 + 0.5) * cell;
        }
        if count > 1 {
            blocks.push(Bounds {
                left: left + 1.0,
                top: top + 1.0,
                width: wide - 2.0,
                height: deep as f64 * cell - 2.0,
            });
        }
    }
    let last = taken.iter().map(|(rows, _)| rows[1]).max().unwrap_or(0);
    room.top + last as f64 * cell
}

/// The first row from which so many are free between two edges.
fn first_free(taken: &[Taken], [left, right]: [f64; 2], deep: usize) -> usize {
    let in_the_way = |row: usize| {
        let others = taken
            .iter()
            .filter(|(_, across)| across[0] < right && left < across[1]);
        others
            .filter(|(rows, _)| rows[0] < row + deep && row < rows[1])
            .map(|(rows, _)| rows[1])
            .max()
    };
    let mut row = 0;
    // Below what is in the way there may be something else.
    while let Some(below) = in_the_way(row) {
        row = below;
    }
    row
}
