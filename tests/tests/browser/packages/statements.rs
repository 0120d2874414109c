//! Lessons that tell a store of statements, by the Experience API.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, anyhow, bail, ensure};
use levertrain_tests::browser::{Page, page, skipped};
use serde_json::{Value, json};

use super::contents::judged;
use super::making;
use super::scorm::{package, right};
use crate::learner::Learner;

/// The store is on another host than the lesson.
const POLICY: &str =
    "default-src 'self' 'unsafe-inline' 'wasm-unsafe-eval' data: blob:; connect-src 'self' http:";
const REGISTRATION: &str = "ec531277-b57b-4c15-8d91-d292c5b2b8f7";
const ACTIVITY: &str = "https://lessons.example/one-set";
const AUTH: &str = "Basic bGVhcm5lcjpzZWNyZXQ=";

/// What a store was told.
#[derive(Default)]
struct Told {
    statements: Vec<Value>,
    state: Option<String>,
    /// Requests without what lets them in, or of another version.
    strangers: Vec<String>,
}

/// A store of statements and of the states of lessons, on this machine.
struct Store {
    address: String,
    told: Arc<Mutex<Told>>,
}

impl Store {
    /// It ends with the test's process.
    fn start() -> Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
        let address = format!("http://{}/store", listener.local_addr()?);
        let told = Arc::new(Mutex::new(Told::default()));
        let known = Arc::clone(&told);
        thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let known = Arc::clone(&known);
                thread::spawn(move || answer(stream, &known));
            }
        });
        Ok(Self { address, told })
    }

    fn with<T>(&self, read: impl FnOnce(&mut Told) -> T) -> Result<T> {
        let mut told = self.told.lock().map_err(|_| anyhow!("the store broke"))?;
        Ok(read(&mut told))
    }

    /// The names of what was told so far, once the last of them is this.
    fn until(&self, last: &str) -> Result<Vec<String>> {
        let start = Instant::now();
        loop {
            let verbs: Vec<String> =
                self.with(|told| told.statements.iter().map(verb).collect())?;
            if verbs.last().is_some_and(|verb| verb == last) {
                return Ok(verbs);
            }
            ensure!(
                start.elapsed() < Duration::from_secs(30),
                "{verbs:?}, and never {last}"
            );
            thread::sleep(Duration::from_millis(15));
        }
    }
}

fn verb(statement: &Value) -> String {
    let id = statement["verb"]["id"].as_str().unwrap_or_default();
    id.rsplit('/').next().unwrap_or_default().to_owned()
}

/// One request, and its answer after the standard's part on communication.
fn answer(stream: TcpStream, known: &Mutex<Told>) -> Result<()> {
    let mut reader = BufReader::new(stream.try_clone()?);
    let mut head = Vec::new();
    for line in reader.by_ref().lines() {
        let line = line?;
        if line.is_empty() {
            break;
        }
        head.push(line);
    }
    let first = head.first().context("a request")?.clone();
    let header = |name: &str| {
        let mut pairs = head.iter().filter_map(|line| line.split_once(": "));
        pairs
            .find(|(key, _)| key.eq_ignore_ascii_case(name))
            .map(|(_, value)| value.to_owned())
    };
    let length = header("content-length").map_or(Ok(0), |length| length.parse())?;
    let mut body = vec![0; length];
    reader.read_exact(&mut body)?;
    let body = String::from_utf8(body)?;
    let mut told = known.lock().map_err(|_| anyhow!("the store broke"))?;
    let asks_first = first.starts_with("OPTIONS ");
    let version = header("x-experience-api-version");
    if !asks_first
        && (header("authorization").as_deref() != Some(AUTH) || version.as_deref() != Some("1.0.3"))
    {
        told.strangers.push(first.clone());
    }
    let (status, said) = match first
        .split('?')
        .next()
        .and_then(|start| start.split(" HTTP").next())
    {
        _ if asks_first => ("204 No Content", String::new()),
        Some("POST /store/statements") => {
            let statements: Vec<Value> = serde_json::from_str(&body)?;
            let ids: Vec<Value> = statements.iter().map(|one| one["id"].clone()).collect();
            told.statements.extend(statements);
            ("200 OK", json!(ids).to_string())
        }
        Some("PUT /store/activities/state") => {
            told.state = Some(body);
            ("204 No Content", String::new())
        }
        Some("GET /store/activities/state") => match &told.state {
            Some(state) => ("200 OK", state.clone()),
            None => ("404 Not Found", String::new()),
        },
        _ => {
            told.strangers.push(first);
            ("400 Bad Request", String::new())
        }
    };
    let mut stream = stream;
    write!(
        stream,
        "HTTP/1.1 {status}\r\nAccess-Control-Allow-Origin: *\r\nAccess-Control-Allow-Methods: GET, PUT, POST\r\n\
         Access-Control-Allow-Headers: Authorization, Content-Type, X-Experience-API-Version\r\n\
         Content-Length: {}\r\nConnection: close\r\n\r\n{said}",
        said.len()
    )?;
    Ok(())
}

/// The page of the lesson as a course system opens it.
fn address(store: &Store) -> Result<String> {
    let mut address = url::Url::parse("http://x/lesson/lesson.html")?;
    let actor = json!({"name": "A learner", "account": {"homePage": "https://school.example", "name": "7"}});
    address
        .query_pairs_mut()
        .append_pair("endpoint", &store.address)
        .append_pair("auth", AUTH)
        .append_pair("actor", &actor.to_string())
        .append_pair("activity_id", ACTIVITY)
        .append_pair("registration", REGISTRATION);
    Ok(format!(
        "lesson/lesson.html?{}",
        address.query().context("a query")?
    ))
}

fn learner(page: &Page) -> Learner<'_> {
    Learner::at(page, "lever-train[exercise]")
}

/// Catches statements that are none, come in another order or say something else than what happened, a lesson that a
/// store does not let in, and one that begins anew.
#[test]
fn a_lesson_tells_a_store_of_statements() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let files = package("xapi", "50")?;
    let right = right()?;
    let folder = making::lay_out("course-xapi", &files, &[])?;
    let store = Store::start()?;
    let address = address(&store)?;
    page::open_foreign(&folder, POLICY, "lesson/lesson.html", |page| {
        // Nobody has begun it.
        page.expect_fault("404");
        page.goto(&address)?;
        learner(page).walk_through()?;
        learner(page).pick(&right[0])?;
        learner(page).press("next")?;
        // Another member than the one that is held.
        learner(page).pick(if right[1] == "0" { "1" } else { "0" })?;
        page.goto_silent("about:blank")?;
        let verbs = store.until("terminated")?;
        ensure!(
            verbs == ["initialized", "answered", "terminated"],
            "{verbs:?}"
        );

        page.goto(&address)?;
        learner(page).asked()?;
        let place = learner(page).place()?;
        ensure!(place.starts_with("Question 2 of 3, 1 point"), "{place}");
        learner(page).pick(&right[1])?;
        learner(page).press("next")?;
        learner(page).press("reveal")?;
        let verbs = store.until("passed")?;
        ensure!(
            verbs[3..] == ["initialized", "answered", "answered", "completed", "passed"],
            "{verbs:?}"
        );
        let trouble: String = page.get(
            "document.querySelector('[data-part=lesson-trouble]').textContent",
            Value::Null,
        )?;
        ensure!(trouble.is_empty(), "{trouble}");
        page.goto_silent("about:blank")?;
        store.until("terminated")?;
        let (statements, strangers) =
            store.with(|told| (told.statements.clone(), told.strangers.clone()))?;
        ensure!(strangers.is_empty(), "{strangers:?}");
        check(&statements, &folder)
    })
}

/// What the statements say, and whether an independent validator takes them.
fn check(statements: &[Value], folder: &std::path::Path) -> Result<()> {
    for statement in statements {
        ensure!(
            statement["context"]["registration"] == REGISTRATION,
            "{statement}"
        );
        ensure!(statement["actor"]["account"]["name"] == "7", "{statement}");
    }
    let [_, first, .., completed, passed, _] = statements else {
        bail!("{} statements", statements.len());
    };
    ensure!(
        first["result"]["success"] == true
            && first["result"]["response"] == "forward"
            && first["object"]["id"] == format!("{ACTIVITY}#q1-direction")
            && first["context"]["contextActivities"]["parent"][0]["id"] == ACTIVITY,
        "{first}"
    );
    let shown = &statements[5]["result"];
    ensure!(
        shown["success"] == false && shown["score"]["scaled"] == 0,
        "{shown}"
    );
    ensure!(
        completed["object"]["id"] == ACTIVITY
            && completed["result"]["completion"] == true
            && completed["result"]["score"]
                == json!({"scaled": 0.5, "raw": 1.5, "min": 0, "max": 3}),
        "{completed}"
    );
    ensure!(passed["result"]["success"] == true, "{passed}");
    // One is spoilt, so that the validator is seen to judge.
    let mut all = statements.to_vec();
    let mut spoilt = first.clone();
    spoilt["result"]["score"]["scaled"] = json!(2);
    all.push(spoilt);
    let file = folder.join("statements.json");
    std::fs::write(&file, serde_json::to_string(&all)?)?;
    let found = judged("statements.cjs", &[&file.to_string_lossy()])?;
    let found = found.as_array().context("a list")?;
    let (spoilt, good) = found.split_last().context("one")?;
    ensure!(
        good.len() == statements.len() && good.iter().all(|one| *one == json!([])),
        "{found:?}"
    );
    ensure!(*spoilt != json!([]), "a share of 2 is taken");
    Ok(())
}
