//! Finding room for a label: a fixed list of candidate places, the cheapest that is free wins.

use std::cell::Cell;

use crate::draw::scene::{Align, Bounds, Point, at};

/// Clear space between a label and what it belongs to, in CSS pixels.
const GAP: f64 = 5.0;

/// How far a label that leans one way reaches past its point the other way.
const LEAN: f64 = 8.0;

/// From a level line through a point to a label beside it.
const LINE_GAP: f64 = 4.0;

/// How far beyond the nearest place a label may move, in CSS pixels.
const AWAY: [f64; 8] = [0.0, 7.0, 15.0, 25.0, 37.0, 51.0, 67.0, 85.0];

/// From this distance on a line leads from a label to what it belongs to.
const LEADER_FROM: f64 = 15.0;

/// What moving away by one CSS pixel costs, in the unit in which crossing things is weighed.
const AWAY_COST: f64 = 0.45;

/// What a leader costs that runs over another label or node.
const CROSSED_LEADER: f64 = 100.0;

/// What a nought on the line of standstill costs, and how near that is: the line on both sides of it reads as signs.
const STRUCK: f64 = 60.0;
const ON_LINE: f64 = 7.0;

/// What a place for what is around a point costs beyond the usual, by the leader to it and what its label took before.
pub(super) type Weigh = fn(&Board, Point, Bounds, Option<[Point; 2]>, Option<usize>) -> f64;

/// The space labels share.
#[derive(Debug, Clone)]
pub(super) struct Board {
    area: Bounds,
    taken: Vec<Bounds>,
    lines: Vec<Line>,
    /// Boxes of what labels could be about, and what else a place costs beside them.
    pub nodes: Vec<Bounds>,
    /// Leaders to labels, by what these took.
    pub leaders: Vec<(usize, [Point; 2])>,
    /// From this distance on a line leads from a label to what it belongs to.
    pub leads_from: f64,
    pub weigh: Option<Weigh>,
    /// Where the line of standstill is.
    pub standstill: f64,
    /// What blocked the last place: most likely the next one too.
    blocker: Cell<usize>,
}

/// A line that a label may cover, at a cost.
#[derive(Debug, Clone, Copy)]
struct Line {
    from: Point,
    to: Point,
    /// Cost of covering one CSS pixel.
    cost: f64,
}

/// What a label takes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Size {
    /// Its width.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// From its upper edge to the middle of a nought in it; not a number where it has none.
    pub nought: f64,
}

/// Where a label could stand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    /// The box it fills.
    pub area: Bounds,
    /// Which side of the box is towards its point.
    pub align: Align,
    /// A line that leads to its point from far away.
    pub leader: Option<[Point; 2]>,
    /// What the place costs; smaller is better.
    pub cost: f64,
}

impl Board {
    /// Free space inside `area`.
    pub(super) const fn new(area: Bounds) -> Self {
        Self {
            area,
            taken: Vec::new(),
            lines: Vec::new(),
            nodes: Vec::new(),
            leaders: Vec::new(),
            leads_from: LEADER_FROM,
            weigh: None,
            standstill: f64::INFINITY,
            blocker: Cell::new(0),
        }
    }

    /// Keeps labels out of a box; the index can be used to [replace](Self::replace) it.
    pub(super) fn take(&mut self, area: Bounds) -> usize {
        self.taken.push(area);
        self.taken.len() - 1
    }

    /// How many boxes are taken.
    pub(super) fn count(&self) -> usize {
        self.taken.len()
    }

    /// Gives all boxes free but so many that were taken first.
    pub(super) fn keep(&mut self, first: usize) {
        self.taken.truncate(first);
    }

    /// Moves a taken box.
    pub(super) fn replace(&mut self, index: usize, area: Bounds) {
        self.taken[index] = area;
    }

    /// Lets labels cover a line at `cost` a CSS pixel.
    pub(super) fn avoid(&mut self, from: Point, to: Point, cost: f64) {
        self.lines.push(Line { from, to, cost });
    }

    /// Whether a box is inside and free, but for what `own` took.
    pub(super) fn is_free(&self, area: Bounds, own: Option<usize>) -> bool {
        let spaced = spaced(area);
        let inside = area.left >= self.area.left
            && area.top >= self.area.top
            && area.left + area.width <= self.area.left + self.area.width
            && area.top + area.height <= self.area.top + self.area.height;
        let blocks = |index: usize| Some(index) != own && self.taken[index].overlaps(&spaced);
        let last = self.blocker.get();
        if !inside || (last < self.taken.len() && blocks(last)) {
            return false;
        }
        match (0..self.taken.len()).find(|&index| blocks(index)) {
            Some(blocker) => {
                self.blocker.set(blocker);
                false
            }
            None => true,
        }
    }

    /// What covering the lines under a box costs.
    pub(super) fn covering(&self, area: Bounds) -> f64 {
        let costs = self
            .lines
            .iter()
            .map(|line| line.cost * length_inside(line.from, line.to, area));
        costs.sum()
    }

    /// The best place for a box of `size` beside a thing that fills `reach` around `centre`;
    /// `None` when every candidate is taken. What `own` took counts as free.
    pub(super) fn best(
        &self,
        centre: Point,
        reach: f64,
        size: Size,
        own: Option<usize>,
    ) -> Option<Spot> {
        let mut best: Option<Spot> = None;
        for away in AWAY {
            let distance = AWAY_COST * away;
            if best.is_some_and(|spot| spot.cost <= distance) {
                break;
            }
            for side in SIDES {
                // Whatever it covers only adds to this.
                if best.is_some_and(|spot| spot.cost <= side.cost + distance) {
                    continue;
                }
                let area = side.area(centre, reach + GAP + away, size);
                if !self.is_free(area, own) {
                    continue;
                }
                let leader = (away >= self.leads_from).then(|| leader(centre, reach, area));
                let crossed = leader.is_some_and(|[from, to]| self.is_crossed(from, to, own));
                // Where there is no nought this is never so.
                let struck = (area.top + size.nought - self.standstill).abs() < ON_LINE;
                let cost = side.cost
                    + distance
                    + self.covering(area)
                    + if struck { STRUCK } else { 0.0 }
                    + if crossed { CROSSED_LEADER } else { 0.0 }
                    + self
                        .weigh
                        .map_or(0.0, |weigh| weigh(self, centre, area, leader, own));
                if best.is_none_or(|spot| cost < spot.cost) {
                    best = Some(Spot {
                        area,
                        align: side.align(),
                        leader,
                        cost,
                    });
                }
            }
        }
        best
    }

    /// What a place costs now.
    pub(super) fn cost(&self, centre: Point, spot: Spot, own: usize) -> f64 {
        let crossed = spot
            .leader
            .is_some_and(|[from, to]| self.is_crossed(from, to, Some(own)));
        let weighed = self.weigh.map_or(0.0, |weigh| {
            weigh(self, centre, spot.area, spot.leader, Some(own))
        });
        self.covering(spot.area) + weighed + if crossed { CROSSED_LEADER } else { 0.0 }
    }

    fn is_crossed(&self, from: Point, to: Point, own: Option<usize>) -> bool {
        let taken = self.taken.iter().enumerate();
        let mut others = taken.filter(|&(index, _)| Some(index) != own);
        others.any(|(_, &taken)| length_inside(from, to, taken) > 1.0)
    }
}

/// A side of a point on which a label can stand.
struct Side {
    x: Across,
    y: Upright,
    /// What being there costs: reading habit decides between places that are equally free.
    cost: f64,
}

/// Where a label stands from left to right.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Across {
    Before,
    /// Over or under the point, leaning left.
    LeaningBefore,
    Centred,
    /// Over or under the point, leaning right.
    LeaningAfter,
    After,
}

/// Where a label stands from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Upright {
    Above,
    /// Beside the point, above a level line through it.
    Raised,
    Level,
    /// Beside the point, below a level line through it.
    Lowered,
    Below,
}

const SIDES: [Side; 12] = [
    Side::new(Across::After, Upright::Level, 0.0),
    Side::new(Across::After, Upright::Raised, 0.5),
    Side::new(Across::After, Upright::Lowered, 1.0),
    Side::new(Across::Centred, Upright::Above, 1.5),
    Side::new(Across::Before, Upright::Level, 1.5),
    Side::new(Across::Before, Upright::Raised, 2.0),
    Side::new(Across::Before, Upright::Lowered, 2.5),
    Side::new(Across::Centred, Upright::Below, 2.5),
    Side::new(Across::LeaningAfter, Upright::Above, 2.5),
    Side::new(Across::LeaningBefore, Upright::Above, 3.0),
    Side::new(Across::LeaningAfter, Upright::Below, 3.5),
    Side::new(Across::LeaningBefore, Upright::Below, 4.0),
];

impl Side {
    const fn new(x: Across, y: Upright, cost: f64) -> Self {
        Self { x, y, cost }
    }

    fn area(&self, centre: Point, reach: f64, size: Size) -> Bounds {
        let Size { width, height, .. } = size;
        let left = match self.x {
            Across::Before => -reach - width,
            Across::LeaningBefore => LEAN - width,
            Across::Centred => -width / 2.0,
            Across::LeaningAfter => -LEAN,
            Across::After => reach,
        };
        let top = match self.y {
            Upright::Above => -reach - height,
            Upright::Raised => -LINE_GAP - height,
            Upright::Level => -height / 2.0,
            Upright::Lowered => LINE_GAP,
            Upright::Below => reach,
        };
        Bounds {
            left: centre.x + left,
            top: centre.y + top,
            width,
            height,
        }
    }

    fn align(&self) -> Align {
        match self.x {
            Across::After | Across::LeaningAfter => Align::Left,
            Across::Before | Across::LeaningBefore => Align::Right,
            Across::Centred => Align::Centre,
        }
    }
}

/// From the edge of a thing around `centre` to the nearest point of a box.
fn leader(centre: Point, reach: f64, area: Bounds) -> [Point; 2] {
    let to = at(
        centre.x.clamp(area.left, area.left + area.width),
        centre.y.clamp(area.top, area.top + area.height),
    );
    let (dx, dy) = (to.x - centre.x, to.y - centre.y);
    let share = (reach + 1.0) / dx.hypot(dy).max(reach + 1.0);
    [at(centre.x + dx * share, centre.y + dy * share), to]
}

/// A box with clear space around it: more beside it than above and below, or words of two
/// labels would read as one.
fn spaced(area: Bounds) -> Bounds {
    const BESIDE: f64 = 5.0;
    const ABOVE: f64 = 1.0;
    Bounds {
        left: area.left - BESIDE,
        top: area.top - ABOVE,
        width: area.width + 2.0 * BESIDE,
        height: area.height + 2.0 * ABOVE,
    }
}

/// How much of a line lies in a box (Liang and Barsky's clipping, from memory).
pub(super) fn length_inside(from: Point, to: Point, area: Bounds) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (step, before, after) in [
        (dx, area.left - from.x, area.left + area.width - from.x),
        (dy, area.top - from.y, area.top + area.height - from.y),
    ] {
        if step == 0.0 {
            if before > 0.0 || after < 0.0 {
                return 0.0;
            }
            continue;
        }
        let (first, second) = (before / step, after / step);
        enters = enters.max(first.min(second));
        leaves = leaves.min(first.max(second));
    }
    (leaves - enters).max(0.0) * dx.hypot(dy)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: Size = Size {
        width: 30.0,
        height: 14.0,
        nought: f64::NAN,
    };

    fn board() -> Board {
        Board::new(Bounds {
            left: 0.0,
            top: 0.0,
            width: 200.0,
            height: 100.0,
        })
    }

    #[track_caller]
    fn best(board: &Board, centre: Point) -> Spot {
        best_of(board, centre, SIZE)
    }

    #[track_caller]
    fn best_of(board: &Board, centre: Point, size: Size) -> Spot {
        match board.best(centre, 10.0, size, None) {
            Some(spot) => spot,
            None => panic!("no room at {centre:?}"),
        }
    }

    #[test]
    fn a_label_stands_to_the_right_unless_something_is_there() {
        let mut board = board();
        let centre = at(100.0, 50.0);
        assert_eq!(best(&board, centre).align, Align::Left);
        board.avoid(at(100.0, 50.0), at(200.0, 50.0), 1.0);
        assert!(best(&board, centre).area.top < 43.0);
    }

    #[test]
    fn a_nought_stands_beside_the_line_of_standstill_and_not_on_it() {
        let mut board = board();
        board.standstill = 50.0;
        let centre = at(100.0, 50.0);
        assert_eq!(best(&board, centre).area.top, 43.0);
        let nought = Size {
            nought: 7.0,
            ..SIZE
        };
        let spot = best_of(&board, centre, nought);
        assert!((spot.area.top + 7.0 - 50.0).abs() >= ON_LINE, "{spot:?}");
    }

    #[test]
    fn a_crowded_label_moves_away_on_a_leader_or_gives_up() {
        let mut board = board();
        let centre = at(100.0, 50.0);
        board.take(Bounds {
            left: 60.0,
            top: 20.0,
            width: 80.0,
            height: 60.0,
        });
        let spot = best(&board, centre);
        assert!(spot.leader.is_some());
        board.take(spot.area);
        let next = best(&board, centre);
        assert!(!next.area.overlaps(&spot.area));
        board.take(Bounds {
            left: 0.0,
            top: 0.0,
            width: 200.0,
            height: 100.0,
        });
        assert!(board.best(centre, 10.0, SIZE, None).is_none());
    }

    #[test]
    fn a_line_is_measured_inside_a_box() {
        let area = Bounds {
            left: 10.0,
            top: 10.0,
            width: 10.0,
            height: 10.0,
        };
        assert_eq!(length_inside(at(0.0, 15.0), at(30.0, 15.0), area), 10.0);
        assert_eq!(length_inside(at(0.0, 5.0), at(30.0, 5.0), area), 0.0);
        let across = length_inside(at(10.0, 10.0), at(30.0, 30.0), area);
        assert!((across - 10.0 * 2.0_f64.sqrt()).abs() < 1e-9);
    }
}
