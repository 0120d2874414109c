//! Where levers, their nodes and the ties between them stand.

use levertrain_core::coupling::Role;
use levertrain_core::short_sort::sort_short_by;
use levertrain_core::{Body, LeverNode, TrainLever};

use super::axis::Axis;
use super::key;
use super::labels::Naming;
use crate::draw::scene::{Point, at};
use crate::draw::section::{Column, Stage};
use crate::motion::live::{Live, Motion};

/// Least radius of the nodes of a lever that has one letter in each, or somewhere two, and what is
/// left between two nodes, in CSS pixels.
const ONE_LETTER: (f64, f64) = (7.0, 4.0);
const TWO_LETTERS: (f64, f64) = (8.0, 2.0);
/// Radius of a node with a letter in it, in CSS pixels.
pub(super) const LETTERED: f64 = 10.0;
/// Radius of a node without.
pub(super) const PLAIN: f64 = 6.5;
/// Height of the row of headings.
pub(super) const HEADING: f64 = 22.0;

/// Width kept for the numbers of the axis, at most.
const GUTTER: f64 = 46.0;
/// Least distance between the ends of neighbouring levers.
const APART: f64 = 44.0;

/// How near a node or a tie a point must be to hit it, in CSS pixels.
const NODE_HIT: f64 = 16.0;
const LINK_HIT: f64 = 5.0;

/// The lever diagram before anything is drawn.
pub(super) struct Diagram<'a> {
    /// The instant shown.
    pub live: &'a Live<'a>,
    /// Width and height in CSS pixels.
    pub size: (f64, f64),
    /// The speed axis.
    pub axis: Axis,
    /// The levers, from left to right.
    pub levers: Vec<Bar>,
    /// The ties between levers.
    pub links: Vec<Link>,
    /// Whether levers of one set have its name over them; joined ones always have.
    pub names_sets: bool,
    /// Whether the speed of the input has a line across.
    pub has_input_line: bool,
    /// Whether the key of the signs is drawn in the room for it.
    pub has_key: bool,
    /// What it stands on.
    pub stage: &'a Stage<'a>,
    /// What else is said, where all must be named.
    pub naming: Option<Naming>,
    /// Lines of what is drawn behind it, with what covering one CSS pixel of them by a label costs.
    pub behind: Vec<(Point, Point, f64)>,
}

/// A lever on the page.
pub(super) struct Bar {
    /// Indices of its couplings.
    pub couplings: Vec<usize>,
    /// Its ends, left and right.
    pub span: (f64, f64),
    /// Its nodes, from left to right.
    pub nodes: Vec<Node>,
    /// Its nodes in the change being tried, where it determines them.
    pub ghosts: Vec<Ghost>,
}

/// A node of a lever: one place, and all that stands there.
pub(super) struct Node {
    /// Its centre.
    pub at: Point,
    /// Its radius.
    pub radius: f64,
    /// Speed per input turn.
    pub speed: f64,
    /// How it moves.
    pub motion: Motion,
    /// The bodies at this place; more than one where they can only turn together.
    pub bodies: Vec<Body>,
    /// The members that it is.
    pub roles: Vec<Role>,
    /// What to call the members where there is no room for a letter in the node.
    pub roles_text: Option<String>,
    /// Whether it is the input, or locked to it by a clutch.
    pub input: bool,
    /// Whether it is the output, or locked to it by a clutch.
    pub output: bool,
    /// Whether it is pointed at.
    pub lit: bool,
}

/// A node as it would be.
pub(super) struct Ghost {
    /// Its centre.
    pub at: Point,
    /// Speed per input turn.
    pub speed: f64,
    /// By how many CSS pixels it is above or below the node as shown; without end where that
    /// is free.
    pub moved: f64,
}

/// The tie between the nodes of one shaft on different levers.
pub(super) struct Link {
    /// The shaft.
    pub shaft: usize,
    /// The centres of its nodes, from left to right.
    pub ends: Vec<Point>,
}

impl<'a> Diagram<'a> {
    /// Lays the diagram out.
    pub(super) fn of(live: &'a Live<'a>, stage: &'a Stage<'a>, merged: bool) -> Self {
        Self::as_high_as(live, stage, merged, stage.size().lever_height, HEADING)
    }

    /// The same in another height, with so much room for headings.
    pub(super) fn as_high_as(
        live: &'a Live<'a>,
        stage: &'a Stage<'a>,
        merged: bool,
        height: f64,
        head: f64,
    ) -> Self {
        let size = (stage.size().width, height);
        let levers = if merged {
            TrainLever::merged(live.train)
        } else {
            TrainLever::separate(live.train)
        };
        // Above the axis there is room for a node and its number, below it for a held node's
        // ground sign.
        let top = head + LETTERED + 10.0;
        let bottom = size.1 - key::height(stage, live.powers.is_some()) - LETTERED - 14.0;
        let axis = Axis::of(live, top, bottom.max(top + 1.0));
        let locked = Locked::of(live);
        let levers: Vec<Bar> = placed(levers, stage.columns())
            .into_iter()
            .map(|(lever, span)| Bar::of(&lever, span, live, &axis, &locked))
            .collect();
        let links = links(live, &levers);
        Self {
            live,
            size,
            axis,
            levers,
            links,
            names_sets: true,
            has_input_line: !live.by_hand,
            has_key: true,
            stage,
            naming: None,
            behind: Vec::new(),
        }
    }

    /// Left and right end of what is drawn along the axis.
    pub(super) fn sides(&self) -> (f64, f64) {
        let left = self.levers.first().map_or(0.0, |lever| lever.span.0);
        ((left - LETTERED - 8.0).min(GUTTER), self.size.0 - 4.0)
    }

    /// Every node.
    pub(super) fn nodes(&self) -> impl Iterator<Item = &Node> {
        self.levers.iter().flat_map(|lever| &lever.nodes)
    }

    /// The shaft whose node or tie is drawn at a point.
    pub(super) fn shaft_at(&self, point: Point) -> Option<usize> {
        let away = |node: &Node| (node.at.x - point.x).hypot(node.at.y - point.y);
        let nearest = self.nodes().min_by(|a, b| away(a).total_cmp(&away(b)));
        if let Some(node) = nearest.filter(|node| away(node) <= NODE_HIT) {
            return node.bodies.iter().find_map(|&body| match body {
                Body::Housing => None,
                Body::Shaft(shaft) => Some(shaft),
            });
        }
        let hit = |link: &&Link| {
            let (first, last) = link.reach();
            (first.x..=last.x).contains(&point.x) && (first.y - point.y).abs() <= LINK_HIT
        };
        self.links.iter().find(hit).map(|link| link.shaft)
    }
}

impl Ghost {
    /// Whether it shows anything that the node does not.
    pub(super) fn differs(&self) -> bool {
        self.moved > 0.75
    }
}

impl Link {
    /// Its outermost nodes.
    pub(super) fn reach(&self) -> (Point, Point) {
        (self.ends[0], self.ends[self.ends.len() - 1])
    }
}

impl Bar {
    fn of(
        lever: &TrainLever,
        span: (f64, f64),
        live: &Live<'_>,
        axis: &Axis,
        locked: &Locked,
    ) -> Self {
        let along: Vec<f64> = lever.nodes.iter().map(|node| node.place.to_f64()).collect();
        let closest = along
            .windows(2)
            .map(|pair| (pair[1] - pair[0]) * (span.1 - span.0))
            .filter(|&gap| gap > 0.0)
            .fold(f64::INFINITY, f64::min);
        let groups: Vec<&[LeverNode]> = lever
            .nodes
            .chunk_by(|one, next| one.place == next.place)
            .collect();
        let single = lever.nodes.iter().all(|node| node.members.len() == 1);
        let mut members = lever.nodes.iter().flat_map(|node| &node.members);
        let (least, apart) = match members.any(|member| letter(live, member).len() > 1) {
            true => TWO_LETTERS,
            false => ONE_LETTER,
        };
        // Nodes that stand close are smaller before they lose their letters.
        let radius = ((closest - apart) / 2.0).min(LETTERED);
        let fits = least <= radius;
        let lettered = (single && fits && groups.len() == lever.nodes.len()).then_some(radius);
        let nodes: Vec<Node> = groups
            .into_iter()
            .map(|group| {
                let x = span.0 + group[0].place.to_f64() * (span.1 - span.0);
                Node::of(group, x, lettered, live, axis, locked)
            })
            .collect();
        let ghosts = ghosts(live, axis, &nodes);
        Self {
            couplings: lever.couplings.clone(),
            span,
            nodes,
            ghosts,
        }
    }

    /// Whether nothing decides where the whole lever stands.
    pub(super) fn is_free(&self) -> bool {
        self.nodes.iter().any(|node| node.motion == Motion::Free)
    }
}

impl Node {
    fn of(
        group: &[LeverNode],
        x: f64,
        lettered: Option<f64>,
        live: &Live<'_>,
        axis: &Axis,
        locked: &Locked,
    ) -> Self {
        let bodies: Vec<Body> = group.iter().map(|node| node.body).collect();
        let members: Vec<(usize, usize)> = group
            .iter()
            .flat_map(|node| node.members.iter().copied())
            .collect();
        let role = |&(coupling, member): &(usize, usize)| {
            live.train.scenario().couplings[coupling].facts().members()[member].role
        };
        let speed = live.speed(bodies[0]);
        let names: Vec<String> = members
            .iter()
            .map(|member| role_name(role(member), member.0))
            .collect();
        let roles_text = lettered.is_none().then(|| names.join("·"));
        // A fight or a free member is the more remarkable of two that stand together.
        let motions = bodies.iter().map(|&body| live.motion(body));
        let motion = motions
            .max_by_key(|motion| match motion {
                Motion::Fighting => 2,
                Motion::Free => 1,
                _ => 0,
            })
            .unwrap_or(Motion::Held);
        Self {
            at: at(x, axis.y(speed)),
            radius: lettered.unwrap_or(PLAIN),
            speed,
            motion,
            roles: members.iter().map(role).collect(),
            roles_text,
            input: bodies.iter().any(|&body| locked.to_input(body)),
            output: bodies.iter().any(|&body| locked.to_output(body)),
            lit: bodies.iter().any(|&body| live.is_lit(body)),
            bodies,
        }
    }
}

/// The letter of a member.
fn letter(live: &Live<'_>, &(coupling, member): &(usize, usize)) -> &'static str {
    live.train.scenario().couplings[coupling].facts().members()[member]
        .role
        .letter()
}

/// A member's letter and the number of its set, or a word where the letter is itself a number.
fn role_name(role: Role, coupling: usize) -> String {
    if role.is_of_set() {
        format!("{}{}", role.letter(), coupling + 1)
    } else {
        role.word().to_owned()
    }
}

/// Which shafts the applied clutches lock to the input and to the output.
struct Locked {
    input: Vec<bool>,
    output: Vec<bool>,
}

impl Locked {
    fn of(live: &Live<'_>) -> Self {
        let train = live.train;
        let ends: Vec<[Body; 2]> = live.applied.iter().map(|x| train.ends(x)).collect();
        let spread = |from: usize| {
            let mut locked = vec![false; live.speeds.len()];
            locked[from] = true;
            // A chain of clutches is at most as long as there are elements.
            for _ in 0..ends.len() {
                for pair in &ends {
                    if let &[Body::Shaft(a), Body::Shaft(b)] = pair {
                        let either = locked[a] || locked[b];
                        (locked[a], locked[b]) = (either, either);
                    }
                }
            }
            locked
        };
        Self {
            input: spread(train.input()),
            output: spread(train.output()),
        }
    }

    fn to_input(&self, body: Body) -> bool {
        matches!(body, Body::Shaft(shaft) if self.input[shaft])
    }

    fn to_output(&self, body: Body) -> bool {
        matches!(body, Body::Shaft(shaft) if self.output[shaft])
    }
}

/// Gives each lever its space: the columns in order, as many as it joins couplings, and clear
/// of its neighbours by enough for their labels.
fn placed(levers: Vec<TrainLever>, columns: &[Column]) -> Vec<(TrainLever, (f64, f64))> {
    let left = |lever: &TrainLever| {
        let lefts = lever.couplings.iter().map(|&index| columns[index].left);
        lefts.fold(f64::INFINITY, f64::min)
    };
    let mut slots: Vec<Column> = levers
        .iter()
        .flat_map(|lever| lever.couplings.iter().map(|&index| columns[index]))
        .collect();
    sort_short_by(&mut slots, |a, b| a.left.total_cmp(&b.left));
    let mut levers = levers;
    sort_short_by(&mut levers, |a, b| left(a).total_cmp(&left(b)));
    let mut next = 0;
    let mut placed: Vec<(TrainLever, (f64, f64))> = levers
        .into_iter()
        .map(|lever| {
            let own = &slots[next..next + lever.couplings.len()];
            next += own.len();
            (lever, (own[0].left, own[own.len() - 1].right))
        })
        .collect();
    for index in 1..placed.len() {
        let missing = APART - (placed[index].1.0 - placed[index - 1].1.1);
        if missing > 0.0 {
            placed[index - 1].1.1 -= missing / 2.0;
            placed[index].1.0 += missing / 2.0;
        }
    }
    placed
}

fn links(live: &Live<'_>, levers: &[Bar]) -> Vec<Link> {
    (0..live.speeds.len())
        .filter_map(|shaft| {
            let ends: Vec<Point> = levers
                .iter()
                .flat_map(|lever| &lever.nodes)
                .filter(|node| node.bodies.contains(&Body::Shaft(shaft)))
                .map(|node| node.at)
                .collect();
            (ends.len() > 1).then_some(Link { shaft, ends })
        })
        .collect()
}

/// The nodes of a lever in the change being tried; none where that would move none of them.
fn ghosts(live: &Live<'_>, axis: &Axis, nodes: &[Node]) -> Vec<Ghost> {
    let Some(preview) = &live.preview else {
        return Vec::new();
    };
    let ghosts: Vec<Ghost> = nodes
        .iter()
        .filter_map(|node| {
            let speed = match node.bodies[0] {
                Body::Housing => 0.0,
                Body::Shaft(shaft) => preview[shaft]?,
            };
            let y = axis.y(speed);
            Some(Ghost {
                at: at(node.at.x, y),
                speed,
                moved: match node.motion {
                    Motion::Free => f64::INFINITY,
                    _ => (y - node.at.y).abs(),
                },
            })
        })
        .collect();
    if ghosts.iter().any(Ghost::differs) {
        ghosts
    } else {
        Vec::new()
    }
}
