//! The walk: an ordered list of claims about a combination, each with what it is about.

use levertrain_exact::Fraction;

use super::walk_kept::Kept;
use super::walk_order::Order;
use super::walk_stage::{Stage, What};
use super::walk_tie::Tie;
use crate::base::element_set::ElementSet;
use crate::load::power::PowerFlow;
use crate::solve::fight::Fight;
use crate::solve::torque::Torques;
use crate::solve::{Combination, State};
use crate::train::{Body, Train};
use crate::words::{Does, Joins, MemberAt, Neutral, TieUp, does};

/// A walk through what a combination does, from what is applied to the output.
#[derive(Debug, Clone)]
pub struct Walk<'a> {
    /// The train.
    pub train: &'a Train,
    /// The steps, in order.
    pub steps: Vec<Step>,
}

/// One step of a walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is said.
    pub claim: Claim,
    /// The elements it is about.
    pub elements: ElementSet,
    /// The members it is about.
    pub members: Vec<MemberAt>,
    /// The shafts it is about.
    pub shafts: Vec<usize>,
    /// The shafts whose speeds are known once it is told; before it those of the step before.
    pub known: Vec<usize>,
}

/// What a step says.
#[derive(Debug, Clone, PartialEq)]
pub enum Claim {
    /// Which members the input turns whatever is applied.
    Input,
    /// Nothing is applied.
    NoneApplied,
    /// What an applied element joins or holds.
    Applied(usize, Does),
    /// Of several outputs the one that is told of carries torque, and no source but the input does.
    Alone,
    /// Applied elements join the input to the output itself.
    Joined,
    /// Sets whose motion is decided by what is known before.
    Stage(Stage),
    /// Couplings that carry no torque.
    Idle(Vec<usize>),
    /// More power than the input's goes through these members, this many times as much.
    GoesRound(Fraction, Vec<MemberAt>),
    /// The output.
    Output(Output),
    /// Why the output is free.
    Neutral(Neutral),
    /// How the speeds of a set hang together that nothing decides yet.
    Tie(Tie),
    /// Why elements stay applied that do nothing here.
    Kept(Kept),
    /// What holds the output.
    OutputHeld(Fight),
    /// What fights.
    TiedUp(TieUp),
}

/// What arrives at the output.
#[derive(Debug, Clone, PartialEq)]
pub struct Output {
    /// Input speed over output speed.
    pub ratio: Fraction,
    /// The ratios of the stages, where all power goes through one after the other, so that their product
    /// is the ratio; else nothing.
    pub factors: Vec<Fraction>,
    /// The couplings in which the direction turns round.
    pub turns_round: Vec<usize>,
}

impl<'a> Walk<'a> {
    /// Walks through a combination that is settled for drive.
    pub fn of(combination: &Combination<'a>) -> Self {
        let mut walker = Walker {
            train: combination.train(),
            combination,
            order: Order::of(combination),
            steps: Vec::new(),
        };
        if let State::Driving(_) | State::OverApplied(_) = combination.state() {
            walker.input();
        }
        walker.applied();
        match combination.state() {
            State::Driving(ratio) | State::OverApplied(ratio) => walker.drive(ratio),
            State::Neutral => walker.neutral(),
            State::OutputHeld => {
                let held = combination.hold();
                walker.fight(held.clone(), held.map(Claim::OutputHeld));
            }
            State::TiedUp => {
                let tie_up = TieUp::of(combination);
                let fight = tie_up.as_ref().map(|tie_up| tie_up.fight.clone());
                walker.fight(fight, tie_up.map(Claim::TiedUp));
            }
        }
        Self {
            train: walker.train,
            steps: walker.steps,
        }
    }
}

struct Walker<'a, 'b> {
    train: &'a Train,
    combination: &'b Combination<'a>,
    order: Order<'a, 'b>,
    steps: Vec<Step>,
}

impl Walker<'_, '_> {
    fn step(&mut self, claim: Claim, elements: ElementSet, members: Vec<MemberAt>) {
        let bodies = members
            .iter()
            .map(|&(set, member)| self.train.members(set)[member]);
        let ends = elements.iter().flat_map(|element| self.train.ends(element));
        let mut shafts = Vec::new();
        for body in bodies.chain(ends) {
            if let Body::Shaft(shaft) = body
                && !shafts.contains(&shaft)
            {
                shafts.push(shaft);
            }
        }
        self.steps.push(Step {
            claim,
            elements,
            members,
            shafts,
            known: self.order.known(),
        });
    }

    fn all_members(&self, couplings: &[usize]) -> Vec<MemberAt> {
        let mut members = Vec::new();
        for &coupling in couplings {
            members
                .extend((0..self.train.members(coupling).len()).map(|member| (coupling, member)));
        }
        members
    }

    fn input(&mut self) {
        let members = self.members_on(&[Body::Shaft(self.train.input())]);
        if !members.is_empty() {
            self.step(Claim::Input, ElementSet::NONE, members);
        }
    }

    fn applied(&mut self) {
        let applied = self.combination.applied();
        if applied.is_empty() {
            self.step(Claim::NoneApplied, applied, Vec::new());
        }
        for element in applied.iter() {
            self.order.apply(element);
            let claim = Claim::Applied(element, does(self.train, element));
            let members = self.members_on(&self.train.ends(element));
            self.step(claim, ElementSet::NONE.with(element), members);
        }
    }

    fn members_on(&self, bodies: &[Body]) -> Vec<MemberAt> {
        let all: Vec<usize> = (0..self.train.scenario().couplings.len()).collect();
        let mut members = self.all_members(&all);
        members.retain(|&(set, member)| {
            let body = self.train.members(set)[member];
            body != Body::Housing && bodies.contains(&body)
        });
        members
    }

    fn drive(&mut self, ratio: &Fraction) {
        let joins = Joins::of(self.train, self.combination.applied());
        let ends = [self.train.input(), self.train.output()].map(Body::Shaft);
        if self.train.scenario().is_branched() {
            let members = self.members_on(&ends[1..]);
            self.step(Claim::Alone, ElementSet::NONE, members);
            self.with_output();
        }
        if joins.join(ends[0], ends[1]) {
            let members = self.members_on(&ends);
            self.step(Claim::Joined, joins.needed(ends[0], ends[1]), members);
        }
        let torques = Torques::of(self.combination);
        let flow = torques
            .as_ref()
            .map(|torques| PowerFlow::of(self.combination, torques));
        let (mut factors, mut turns_round) = (Some(Vec::new()), Vec::new());
        let is_loaded = |coupling: usize| {
            let members = 0..self.train.members(coupling).len();
            let torque = |member| torques.as_ref()?.member(coupling, member);
            members
                .into_iter()
                .any(|member| torque(member).is_none_or(|torque| !torque.is_zero()))
        };
        let count = self.train.scenario().couplings.len();
        let (working, mut idle): (Vec<usize>, Vec<usize>) =
            (0..count).partition(|&at| is_loaded(at));
        self.order.begin(working, &joins);
        let tell = (torques.as_ref(), flow.as_ref(), &joins);
        while let Some(group) = self.order.next(&idle) {
            idle.retain(|at| !group.couplings.contains(at));
            let stage = Stage::of(self.combination, tell, &group);
            for set in &stage.sets {
                self.order.reach(set, &joins);
                if set.turns_round(self.combination) {
                    turns_round.push(set.coupling);
                }
                match (&set.what, &set.ratio, &mut factors) {
                    (What::AsOne(_) | What::Strut | What::Idle, _, _) => {}
                    (_, Some(ratio), Some(factors)) if ratio.carries_all => {
                        factors.push(ratio.ratio.clone());
                    }
                    _ => factors = None,
                }
            }
            let held = stage
                .sets
                .iter()
                .fold(ElementSet::NONE, |all, set| all.union(set.elements()));
            let members = self.all_members(&group.couplings);
            self.step(Claim::Stage(stage), held, members);
        }
        if !idle.is_empty() {
            for &coupling in &idle {
                self.order.add(coupling);
            }
            let members = self.all_members(&idle);
            self.step(Claim::Idle(idle), ElementSet::NONE, members);
        }
        if let Some((flow, most)) = flow
            .as_ref()
            .and_then(|flow| Some((flow, flow.recirculating()?)))
        {
            let all: Vec<usize> = (0..count).collect();
            let mut members = self.all_members(&all);
            members.retain(|&(set, member)| {
                flow.member(set, member)
                    .is_some_and(|power| power.abs() == most)
            });
            self.step(
                Claim::GoesRound(most, members.clone()),
                ElementSet::NONE,
                members,
            );
        }
        let factors = factors.unwrap_or_default();
        let product = factors
            .iter()
            .fold(Fraction::ONE, |product, factor| &product * factor);
        let output = Output {
            ratio: ratio.clone(),
            factors: if product == *ratio {
                factors
            } else {
                Vec::new()
            },
            turns_round,
        };
        let members = self.members_on(&ends[1..]);
        self.step(Claim::Output(output), ElementSet::NONE, members);
        self.with_output();
    }

    /// The step told last is about the output also where no member of a set turns with it.
    fn with_output(&mut self) {
        let output = self.train.output();
        if let Some(step) = self.steps.last_mut()
            && !step.shafts.contains(&output)
        {
            step.shafts.push(output);
        }
    }

    fn neutral(&mut self) {
        for coupling in 0..self.train.scenario().couplings.len() {
            self.order.add(coupling);
        }
        let neutral = Neutral::of(self.combination);
        self.step(Claim::Neutral(neutral), ElementSet::NONE, Vec::new());
        self.with_output();
        // Where several speeds are given, this is what drives, and no way to another range.
        if self.train.scenario().is_branched() {
            for tie in Tie::all(self.combination) {
                let members = self.all_members(&[tie.set]);
                self.step(Claim::Tie(tie), ElementSet::NONE, members);
            }
            return;
        }
        for kept in Kept::all(self.combination) {
            let elements = kept.elements;
            self.step(Claim::Kept(kept), elements, Vec::new());
        }
    }

    fn fight(&mut self, fight: Option<Fight>, claim: Option<Claim>) {
        let (Some(fight), Some(claim)) = (fight, claim) else {
            return;
        };
        for coupling in 0..self.train.scenario().couplings.len() {
            self.order.add(coupling);
        }
        let members = self.all_members(&fight.couplings);
        self.step(claim, fight.elements, members);
    }
}
