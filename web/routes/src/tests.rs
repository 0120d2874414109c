//! Against costs found by relaxing every step until nothing gets cheaper (Bellman and Ford).

use super::*;

const COLUMNS: usize = 7;
const ROWS: usize = 5;
const NODES: usize = COLUMNS * ROWS;
const OWN: u8 = 3;
const OTHER: u8 = 4;
/// Along a row, across it, and as a start.
const ALL: usize = 3;

/// Chance that is the same every time (xorshift).
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % bound
    }
}

fn ground(dice: &mut Dice) -> Ground {
    let mut step = |is_last| match dice.below(6) {
        _ if is_last => NO_WAY,
        0 => NO_WAY,
        cost => cost as u16,
    };
    let steps = (0..NODES).map(|node| {
        let ends = [node % COLUMNS == COLUMNS - 1, node / COLUMNS == ROWS - 1];
        ends.map(&mut step)
    });
    Ground::new(COLUMNS, steps, 2, 9)
}

/// Least cost of each node and way of arriving at it.
fn relaxed(ground: &Ground, starts: &[Node]) -> Vec<Option<u32>> {
    let mut costs = vec![None; NODES * ALL];
    for start in starts {
        costs[start * ALL + START] = Some(0);
    }
    loop {
        let before = costs.clone();
        for from in 0..NODES {
            for way in [0, 1] {
                let to = from + [1, COLUMNS][way];
                let step = ground.cells()[from].steps[way];
                if step == NO_WAY {
                    continue;
                }
                for (from, to) in [(from, to), (to, from)] {
                    for arrival in 0..ALL {
                        let Some(cost) = costs[from * ALL + arrival] else {
                            continue;
                        };
                        let turns = arrival != way;
                        let along = [from, to].map(|node| ground.cells()[node].foreign(OWN)[way]);
                        let across =
                            [from, to].map(|node| ground.cells()[node].foreign(OWN)[1 - way]);
                        let shut = along.contains(&true)
                            || across[0] && turns
                            || across[1] && ground.cells()[to].solid;
                        if shut {
                            continue;
                        }
                        let bend = if turns && arrival != START {
                            ground.bend()
                        } else {
                            0
                        };
                        let crossing = if across[1] { ground.crossing() } else { 0 };
                        let cost = cost + u32::from(step) + bend + crossing;
                        let reached = &mut costs[to * ALL + way];
                        *reached = Some(reached.map_or(cost, |other: u32| other.min(cost)));
                    }
                }
            }
        }
        if costs == before {
            return costs;
        }
    }
}

#[test]
fn costs_are_least() {
    let mut dice = Dice(0x1234_5678_9ABC_DEF1);
    let mut reached = 0;
    for _ in 0..400 {
        let mut ground = ground(&mut dice);
        for node in 0..NODES {
            match dice.below(8) {
                0 => ground.lay(0, node, Owner::Member(OTHER)),
                1 => ground.lay(1, node, Owner::Member(OTHER)),
                2 => ground.fill(node, Owner::Wall),
                3 => ground.fill(node, Owner::Member(OTHER)),
                4 => ground.lay(0, node, Owner::Member(OWN)),
                _ => {}
            }
        }
        let search = |starts: &[Node]| Search::new(&ground, OWN, Nodes::of(NODES, starts));
        let starts = [
            dice.below(NODES as u64) as usize,
            dice.below(NODES as u64) as usize,
        ];
        let least = relaxed(&ground, &starts);
        let least = |node: Node| {
            let arrivals = &least[node * ALL..(node + 1) * ALL];
            arrivals.iter().flatten().min().copied()
        };
        let mut whole = search(&starts);
        whole.spread(u32::MAX);
        // In two steps: what is near is known after the first.
        let mut near = search(&starts);
        near.spread(12);
        for node in 0..NODES {
            assert_eq!(whole.cost(node), least(node));
            if least(node).is_some_and(|cost| cost <= 12) {
                assert_eq!(near.cost(node), least(node));
            }
        }
        near.spread(u32::MAX);
        for node in 0..NODES {
            assert_eq!(near.cost(node), least(node));
            let goals = Nodes::of(NODES, &[node]);
            let mut to_goal = search(&starts);
            to_goal.spread_to(&goals, u32::MAX);
            assert_eq!(to_goal.cost(node), least(node));
            let Some(way) = to_goal.way(node) else {
                continue;
            };
            reached += 1;
            assert!(starts.contains(&way[0]) && way[way.len() - 1] == node);
            let is_step = |pair: &[Node]| [1, COLUMNS].contains(&pair[0].abs_diff(pair[1]));
            assert!(way.windows(2).all(is_step));
        }
    }
    assert!(reached > 1000, "few ways were found: {reached}");
}

#[test]
fn nodes_are_a_set() {
    // On either side of where one word ends and the next begins.
    let some = [0, 1, 62, 63, 64, 65, 127, 128, 129];
    let mut nodes = Nodes::none(130);
    assert!(nodes.are_none() && !nodes.meet(&Nodes::of(130, &some)));
    for (at, &node) in some.iter().enumerate().rev() {
        nodes.add(node);
        assert_eq!(nodes.all(), some[at..]);
        assert!(nodes.meet(&Nodes::of(130, &[node, 3])) && !nodes.meet(&Nodes::of(130, &[3])));
    }
    nodes.take_in(&Nodes::of(130, &[3, 64]));
    assert_eq!(nodes.all(), [0, 1, 3, 62, 63, 64, 65, 127, 128, 129]);
    assert!(nodes.have(3) && !nodes.have(2) && !nodes.are_none());
}
