//! The class of layouts that is gone through: which sets, on how many shafts.

use super::frame::Frame;
use super::limits;
use crate::base::problem::Problem;
use crate::edit::sample;
use crate::model::coupling::{Coupling, Role};

/// The bodies that every layout has; further shafts follow.
pub(super) const HOUSING: u8 = 0;
pub(super) const INPUT: u8 = 1;
pub(super) const OUTPUT: u8 = 2;
/// The first of the further shafts.
pub(super) const FURTHER: u8 = 3;

/// A mesh row with its tooth ratio as a variable, member by member of its set: constant + k·slope.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub set: usize,
    pub constant: Vec<i64>,
    pub slope: Vec<i64>,
}

/// Which sets there are, and how many shafts.
#[derive(Debug, Clone)]
pub(super) struct Class {
    /// A set of each wanted kind, those of one kind next to each other.
    pub sets: Vec<Coupling>,
    /// The role of each member of all sets, one set after the other.
    pub roles: Vec<Role>,
    /// Where the members of each set begin, and where those of the last one end.
    pub begins: Vec<usize>,
    pub rows: Vec<Row>,
    /// How many shafts there are, input and output among them.
    pub shafts: u8,
    /// How many elements are applied in each range.
    pub applied: usize,
    /// Most elements.
    pub elements: usize,
    /// The other orders of all members in which the class is the same.
    orders: Vec<Vec<usize>>,
}

impl Class {
    /// With sets of these kinds.
    ///
    /// # Errors
    /// A kind is none, or none that turns about the one axis.
    pub(super) fn new(kinds: &[String], applied: u32, elements: u32) -> Result<Self, Problem> {
        let mut kinds: Vec<&str> = kinds.iter().map(String::as_str).collect();
        kinds.sort_unstable();
        let sets = kinds.iter().map(|kind| sample(kind));
        let sets: Vec<Coupling> = sets.collect::<Result<_, _>>()?;
        let (mut roles, mut begins, mut rows) = (Vec::new(), vec![0], Vec::new());
        for (set, coupling) in sets.iter().enumerate() {
            let facts = coupling.facts();
            roles.extend(facts.members().iter().map(|member| member.role));
            begins.push(roles.len());
            rows.extend(facts.row_ratios().into_iter().map(|row| Row {
                set,
                constant: row.constant,
                slope: row.slope,
            }));
        }
        // Each row takes one freedom away and each applied element another; the input is the one that is left.
        let shafts = rows.len() + applied as usize + 1;
        let mut class = Self {
            orders: Vec::new(),
            sets,
            roles,
            begins,
            rows,
            shafts: u8::try_from(shafts).unwrap_or(u8::MAX),
            applied: applied as usize,
            elements: elements as usize,
        };
        class.orders = class.other_orders(&kinds);
        Ok(class)
    }

    /// Which set a member is of.
    pub(super) fn set_of(&self, member: usize) -> usize {
        self.begins.partition_point(|&begin| begin <= member) - 1
    }

    /// The members of a set.
    pub(super) fn members(&self, set: usize) -> std::ops::Range<usize> {
        self.begins[set]..self.begins[set + 1]
    }

    /// All orders of the members in which sets of one kind change places, and the two suns of stepped pinions, which
    /// are alike, change names; without the one in which all stays as it is.
    fn other_orders(&self, kinds: &[&str]) -> Vec<Vec<usize>> {
        let mut orders = vec![Vec::new()];
        for place in 0..kinds.len() {
            let mut longer = Vec::new();
            for order in &orders {
                let is_taken = |set: usize| order.contains(&self.members(set).start);
                for set in (0..kinds.len()).filter(|&set| kinds[set] == kinds[place]) {
                    // A set stands in an order by its members, the first of which may be its second sun.
                    let own = self.members(set);
                    if is_taken(set) || order.contains(&(own.start + 1)) {
                        continue;
                    }
                    let mut plain = order.clone();
                    plain.extend(own.clone());
                    if self.roles[own.start] == Role::FirstSun {
                        let mut swapped = order.clone();
                        swapped.extend([own.start + 1, own.start]);
                        swapped.extend(own.start + 2..own.end);
                        longer.push(swapped);
                    }
                    longer.push(plain);
                }
            }
            orders = longer;
        }
        let same: Vec<usize> = (0..self.roles.len()).collect();
        orders.retain(|order| *order != same);
        orders
    }

    /// The beginnings that all ways of joining members are divided by: what the first members are joined to.
    pub(super) fn pieces(&self) -> Vec<Vec<u8>> {
        self.longer(&[], self.roles.len().min(PIECE))
    }

    /// The parts of a piece, with one member more; none where it has few frames, which are gone through at once.
    pub(super) fn parts(&self, begin: &[u8]) -> Vec<Vec<u8>> {
        match begin.len() + AT_ONCE < self.roles.len() {
            true => self.longer(begin, begin.len() + 1),
            false => Vec::new(),
        }
    }

    /// All ways of going on from a beginning up to so many members.
    fn longer(&self, begin: &[u8], to: usize) -> Vec<Vec<u8>> {
        let mut all = Vec::new();
        self.join(&mut begin.to_vec(), to, &mut |bodies| {
            all.push(bodies.to_vec());
        });
        all
    }

    /// All ways of joining members that begin so, each once however its sets are named, and none in which a part
    /// is of no use whatever the elements are.
    pub(super) fn frames(&self, begin: &[u8]) -> Vec<Frame> {
        let mut all = Vec::new();
        let mut bodies = begin.to_vec();
        self.join(&mut bodies, self.roles.len(), &mut |bodies| {
            all.extend(self.frame(bodies));
        });
        all
    }

    /// The frame in which all members are joined so, unless another one stands for it, or a part of it is of no use.
    pub(super) fn frame(&self, bodies: &[u8]) -> Option<Frame> {
        if self.bare(bodies) > 2 * self.elements {
            return None;
        }
        Some(Frame {
            symmetries: self.symmetries(bodies)?,
            bodies: bodies.to_vec(),
        })
    }

    /// Whether there is no frame at all. Where there are any, one is soon met with; after so many ways there are taken to be some.
    pub(super) fn is_empty(&self) -> bool {
        let mut ways = 0;
        let mut beginnings = vec![Vec::new()];
        while let Some(bodies) = beginnings.pop() {
            ways += 1;
            if ways > WAYS || (self.is_whole(&bodies) && self.frame(&bodies).is_some()) {
                return false;
            }
            if !self.is_whole(&bodies) {
                beginnings.extend(self.next(&bodies).into_iter().map(|body| {
                    let mut longer = bodies.clone();
                    longer.push(body);
                    longer
                }));
            }
        }
        true
    }

    /// Whether all members are joined.
    pub(super) fn is_whole(&self, bodies: &[u8]) -> bool {
        bodies.len() == self.roles.len()
    }

    /// Tells all ways of going on with joining members to bodies, up to so many members.
    fn join(&self, bodies: &mut Vec<u8>, to: usize, tell: &mut dyn FnMut(&[u8])) {
        if bodies.len() == to {
            tell(bodies);
            return;
        }
        for body in self.next(bodies) {
            bodies.push(body);
            self.join(bodies, to, tell);
            bodies.pop();
        }
    }

    /// What the next member can be joined to. Further shafts are numbered as they come, so that no two ways differ by their
    /// numbers only.
    pub(super) fn next(&self, bodies: &[u8]) -> Vec<u8> {
        let own = self.members(self.set_of(bodies.len())).start;
        let next = bodies
            .iter()
            .fold(FURTHER, |next, &body| next.max(body + 1));
        let left = self.roles.len() - bodies.len();
        let to_come = usize::from(self.shafts + 1 - next);
        let all = 0..=next.min(self.shafts);
        all.filter(|&body| {
            // Two members of a set on one shaft would lock it for good.
            let locks = bodies[own..].contains(&body);
            let suffices = left > to_come || (left == to_come && body == next);
            !locks && suffices
        })
        .collect()
    }

    /// How many ends of elements it takes at least that no member stands alone on a shaft, where nothing would act on
    /// it, and that input and output are joined to something.
    fn bare(&self, bodies: &[u8]) -> usize {
        let on = |body: u8| bodies.iter().filter(|&&other| other == body).count();
        let further = (FURTHER..=self.shafts).filter(|&body| on(body) == 1);
        let ends = [INPUT, OUTPUT].into_iter().filter(|&body| on(body) == 0);
        further.chain(ends).count()
    }

    /// How its bodies change places in those orders in which the frame is the same; nothing where some order makes a
    /// smaller one of it, which stands for it.
    fn symmetries(&self, bodies: &[u8]) -> Option<Vec<Vec<u8>>> {
        let mut symmetries = Vec::new();
        for order in &self.orders {
            let mut names = vec![u8::MAX; usize::from(self.shafts) + 1];
            for body in [HOUSING, INPUT, OUTPUT] {
                names[usize::from(body)] = body;
            }
            let mut next = FURTHER;
            let mut is_same = true;
            for (&member, &here) in order.iter().zip(bodies) {
                let name = &mut names[usize::from(bodies[member])];
                if *name == u8::MAX {
                    *name = next;
                    next += 1;
                }
                match (*name).cmp(&here) {
                    std::cmp::Ordering::Less => return None,
                    std::cmp::Ordering::Greater => {
                        is_same = false;
                        break;
                    }
                    std::cmp::Ordering::Equal => {}
                }
            }
            if is_same {
                symmetries.push(names);
            }
        }
        Some(symmetries)
    }

    /// Whether the class is small enough, and what is not.
    pub(super) fn is_small(&self) -> bool {
        self.rows.len() <= limits::ROWS
    }
}

/// How many ways of joining members are tried before there are taken to be frames.
const WAYS: usize = 200_000;
/// How many members the pieces of a class agree in.
const PIECE: usize = 4;
/// How many members are joined at once: a few thousand ways at most.
const AT_ONCE: usize = 4;
