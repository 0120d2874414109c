//! What is built on the solution: scenario files written and read again, words, one motion to
//! illustrate a combination with.

use levertrain_core::report::Explanation;
use levertrain_core::{Scenario, State};
use levertrain_tests::generate::{ANY, case, settings};
use levertrain_tests::laws::{Speeds, mesh_residuals, speed_of};
use levertrain_tests::rational::{rational, zero};
use proptest::prelude::*;

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn a_scenario_written_reads_back(case in case(ANY)) {
        let train = case.sketch.train();
        let text = serde_json::to_string(train.scenario());
        let text = text.map_err(|error| TestCaseError::fail(error.to_string()))?;
        let read = Scenario::parse(&text);
        prop_assert_eq!(read.as_ref(), Ok(train.scenario()));
    }

    #[test]
    fn words_are_sentences(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        let words = Explanation::from(&answer);
        prop_assert!(!words.state_words.is_empty() && !words.answer.is_empty());
        prop_assert!(!words.sentences.is_empty());
        for sentence in &words.sentences {
            prop_assert!(sentence.ends_with('.'), "{}", sentence);
            prop_assert!(!sentence.contains("  "), "{}", sentence);
            prop_assert!(!sentence.contains("{$"), "{}", sentence);
        }
        prop_assert_eq!(words.fight.is_some(), *answer.state() == State::TiedUp);
        // Who fights is said by name.
        let said = words.sentences.join(" ");
        let fighting = words.fight.iter().flat_map(|fight| &fight.elements);
        for id in fighting.map(|id| format!("Element {id}")) {
            prop_assert!(said.contains(&id), "{} in {}", id, said);
        }
    }

    #[test]
    fn an_illustration_is_a_motion_of_the_train(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        let motion = train.illustrate(case.applied());
        prop_assert_eq!(motion.len(), case.sketch.shafts.len());
        let ids = case.sketch.shafts.iter().cloned();
        let speeds: Speeds = ids.zip(motion.iter().map(rational)).collect();
        for coupling in &case.sketch.couplings {
            for residual in mesh_residuals(&coupling.gearing, &speeds) {
                prop_assert_eq!(residual, Some(zero()), "mesh of {}", &coupling.id);
            }
        }
        for element in case.sketch.elements.iter().filter(|x| case.is_applied(x)) {
            let [first, second] = &element.ends;
            prop_assert_eq!(speed_of(&speeds, first), speed_of(&speeds, second));
        }
        // What the combination decides is shown as it is: above all the input's one turn.
        for (index, shown) in motion.iter().enumerate() {
            if let Some(decided) = answer.shaft_speed(index) {
                prop_assert_eq!(&decided, shown);
            }
        }
    }
}
