//! Why a combination drives as it does: what its sets do, in the order in which power goes
//! through them.

use levertrain_exact::Fraction;

use super::joins::Joins;
use super::{AsOne, Fact, SetWork};
use crate::solve::Combination;
use crate::solve::torque::Torques;
use crate::train::Body;

/// A fact with the groups of bodies that power comes from and goes to.
struct Step {
    fact: Fact,
    from: Vec<usize>,
    to: Vec<usize>,
}

pub(super) fn facts(combination: &Combination<'_>) -> Vec<Fact> {
    let train = combination.train();
    let joins = Joins::of(train, combination.applied());
    let [input, output] = [train.input(), train.output()].map(Body::Shaft);
    if joins.join(input, output) {
        return vec![Fact::Joined];
    }
    let Some(torques) = Torques::of(combination) else {
        return Vec::new();
    };
    let mut steps: Vec<Step> = Vec::new();
    let mut as_one: Vec<(Fraction, Vec<usize>)> = Vec::new();
    for coupling in 0..train.scenario().couplings.len() {
        let bodies = train.members(coupling);
        let idle = (0..bodies.len()).all(|member| {
            let torque = torques.member(coupling, member);
            torque.is_some_and(Fraction::is_zero)
        });
        if idle {
            continue;
        }
        match common_speed(combination, bodies) {
            Some(speed) if !speed.is_zero() => {
                match as_one.iter_mut().find(|(known, _)| *known == speed) {
                    Some((_, couplings)) => couplings.push(coupling),
                    None => as_one.push((speed, vec![coupling])),
                }
            }
            _ if is_strut(combination, &torques, coupling) => steps.push(Step {
                fact: Fact::Strut(coupling),
                from: Vec::new(),
                to: Vec::new(),
            }),
            _ => {
                let work = SetWork::of(combination, &torques, &joins, coupling);
                let groups = |members: &[usize]| {
                    let members = members.iter();
                    members.map(|&at| joins.group(bodies[at])).collect()
                };
                steps.extend(work.map(|work| Step {
                    from: groups(&work.driving),
                    to: groups(&work.driven),
                    fact: Fact::Works(work),
                }));
            }
        }
    }
    for (_, couplings) in as_one {
        let bodies = couplings.iter().flat_map(|&at| train.members(at));
        let groups: Vec<usize> = bodies.map(|&body| joins.group(body)).collect();
        steps.push(Step {
            fact: Fact::AsOne(AsOne::of(combination, &joins, couplings)),
            from: groups.clone(),
            to: groups,
        });
    }
    in_order(steps, joins.group(input))
}

/// Whether every member that carries torque stands still.
fn is_strut(combination: &Combination<'_>, torques: &Torques, coupling: usize) -> bool {
    let mut bodies = combination.train().members(coupling).iter().enumerate();
    bodies.all(|(member, &body)| {
        let torque = torques.member(coupling, member);
        let rests = || {
            combination
                .body_speed(body)
                .is_some_and(|speed| speed.is_zero())
        };
        torque.is_some_and(Fraction::is_zero) || rests()
    })
}

/// The speed of all these bodies, where they have one.
fn common_speed(combination: &Combination<'_>, bodies: &[Body]) -> Option<Fraction> {
    let speed = combination.body_speed(*bodies.first()?)?;
    let alike = |&body: &Body| combination.body_speed(body).as_ref() == Some(&speed);
    bodies.iter().all(alike).then_some(speed)
}

/// From the input on: next comes the first step that power has reached, or where it goes round,
/// the first of all.
fn in_order(mut steps: Vec<Step>, input: usize) -> Vec<Fact> {
    let mut reached = vec![input];
    let mut facts = Vec::new();
    while !steps.is_empty() {
        let next = steps
            .iter()
            .position(|step| step.from.iter().any(|group| reached.contains(group)));
        let step = steps.remove(next.unwrap_or(0));
        reached.extend(step.to);
        facts.push(step.fact);
    }
    facts
}
