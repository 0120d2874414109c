//! What a set says of the speeds of its members where nothing decides them all.

use levertrain_exact::Fraction;

use crate::model::coupling::Role;
use crate::solve::Combination;
use crate::train::Body;

/// A set of which the speed of one member lies between those of the others.
#[derive(Debug, Clone, PartialEq)]
pub struct Tie {
    /// The coupling.
    pub set: usize,
    /// The member that is told.
    pub member: usize,
    /// How much of its speed is each of the others', which adds up to one unless a member that stands still is left out.
    pub of: Vec<(usize, Fraction)>,
    /// The member that is left out.
    pub still: Option<usize>,
}

impl Tie {
    /// Of every set with one row of meshes some member of which has no speed yet: Willis' equation, solved for the member
    /// between the others. Sets of two gears have none.
    pub(super) fn all(combination: &Combination<'_>) -> Vec<Self> {
        let train = combination.train();
        let couplings = train.scenario().couplings.iter().enumerate();
        let ties = couplings.filter_map(|(set, coupling)| {
            let bodies = train.members(set);
            let is_free = |body: &Body| combination.body_speed(*body).is_none();
            if !bodies.iter().any(is_free) {
                return None;
            }
            let [row] = &coupling.facts().mesh_rows()[..] else {
                return None;
            };
            let facts = coupling.facts();
            let members = facts.members();
            // Of a pair of gears the frame would lie between them.
            if members.iter().any(|member| member.role == Role::Frame) {
                return None;
            }
            let meshing = || (0..bodies.len()).filter(|&member| row[member] != 0);
            let alone = |&member: &usize| {
                let mut others = meshing().filter(|&other| other != member);
                others.all(|other| row[other].signum() != row[member].signum())
            };
            let is_still = |&member: &usize| {
                let speed = combination.body_speed(bodies[member]);
                speed.is_some_and(|speed| speed.is_zero())
            };
            let between = meshing().find(alone).filter(|_| meshing().count() > 2)?;
            let still = meshing().find(is_still);
            let mut told = [between].into_iter().chain(meshing());
            let member = told.find(|member| Some(*member) != still)?;
            let share = |other: usize| Some((other, Fraction::new(row[other], -row[member])?));
            let others = meshing().filter(|&other| other != member && Some(other) != still);
            let of = others.filter_map(share).collect();
            Some(Self {
                set,
                member,
                of,
                still,
            })
        });
        ties.collect()
    }
}
