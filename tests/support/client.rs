//! An editor as the server sees one: messages with their lengths over the
//! program's standard input and output, which stay open until it is dropped.

use crate::Build;
use serde_json::{Value, json};
use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Guards a test against a server that never answers; no measure of speed.
const LIMIT: Duration = Duration::from_secs(60);

/// A running server and what it has said.
pub struct Client {
    child: Child,
    stdin: Option<ChildStdin>,
    heard: Receiver<Value>,
    /// Messages that were not waited for yet.
    waiting: VecDeque<Value>,
    last_id: i64,
}

impl Client {
    /// Starts the server; nothing is said yet.
    pub fn start(build: Build) -> Self {
        let mut child = Command::new(build.program())
            .arg("serve")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .expect("the program starts");
        let stdout = child.stdout.take().expect("its output is piped");
        let stdin = child.stdin.take();
        let (said, heard) = channel();
        thread::spawn(move || {
            let mut stdout = BufReader::new(stdout);
            while let Some(message) = read(&mut stdout) {
                if said.send(message).is_err() {
                    break;
                }
            }
        });
        Self {
            child,
            stdin,
            heard,
            waiting: VecDeque::new(),
            last_id: 0,
        }
    }

    /// Starts the server and shakes hands, with some capabilities.
    pub fn open(build: Build, capabilities: Value) -> Self {
        let mut client = Self::start(build);
        client.answer("initialize", json!({ "capabilities": capabilities }));
        client.tell("initialized", json!({}));
        client
    }

    /// Bytes as they are.
    pub fn raw(&mut self, bytes: &[u8]) {
        let stdin = self.stdin.as_mut().expect("it is open");
        stdin.write_all(bytes).expect("the server listens");
        stdin.flush().expect("the server listens");
    }

    /// A message.
    pub fn send(&mut self, message: &Value) {
        let body = message.to_string();
        self.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes());
    }

    /// A notification.
    pub fn tell(&mut self, method: &str, params: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    /// Asks, and waits for the whole answer.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        self.last_id += 1;
        let id = self.last_id;
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }));
        self.wait(|message| message["id"] == id && message.get("method").is_none())
    }

    /// Asks, and waits for a result.
    pub fn answer(&mut self, method: &str, params: Value) -> Value {
        let mut answer = self.ask(method, params);
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].take()
    }

    /// The next message that is `wanted`; others are kept.
    pub fn wait(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.waiting.iter().position(&wanted) {
            return self.waiting.remove(at).unwrap_or_default();
        }
        let start = Instant::now();
        loop {
            match self.heard.recv_timeout(LIMIT.saturating_sub(start.elapsed())) {
                Ok(message) if wanted(&message) => return message,
                Ok(message) => self.waiting.push_back(message),
                Err(error) => panic!("the server does not answer: {error}; {:?}", self.waiting),
            }
        }
    }

    /// Closes a text, and waits until nothing is told of it any more.
    pub fn close_text(&mut self, uri: &str) {
        self.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
        let told = |message: &Value| {
            message["method"] == "textDocument/publishDiagnostics" && message["params"]["uri"] == uri
        };
        self.wait(|message| told(message) && message["params"].get("version").is_none());
        self.waiting.retain(|message| !told(message));
    }

    /// Whatever was said and not waited for.
    pub fn so_far(&mut self) -> Vec<Value> {
        self.waiting.drain(..).collect()
    }

    /// Whatever is said until nothing is for a while.
    pub fn quiet(&mut self, pause: Duration) -> Vec<Value> {
        let mut all: Vec<Value> = self.waiting.drain(..).collect();
        loop {
            match self.heard.recv_timeout(pause) {
                Ok(message) => all.push(message),
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => return all,
            }
        }
    }

    /// Opens a text.
    pub fn open_text(&mut self, uri: &str, language: &str, text: &str) {
        let document = json!({ "uri": uri, "languageId": language, "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": document }));
    }

    /// Edits a text: each change with its range, or without one for the whole text.
    pub fn change(&mut self, uri: &str, version: i64, changes: &[Value]) {
        let document = json!({ "uri": uri, "version": version });
        self.tell(
            "textDocument/didChange",
            json!({ "textDocument": document, "contentChanges": changes }),
        );
    }

    /// The findings that are told of a version of a text.
    pub fn findings(&mut self, uri: &str, version: i64) -> Vec<Value> {
        let told = self.wait(|message| {
            let params = &message["params"];
            message["method"] == "textDocument/publishDiagnostics"
                && params["uri"] == uri
                && params["version"] == version
        });
        told["params"]["diagnostics"]
            .as_array()
            .cloned()
            .unwrap_or_default()
    }

    /// Waits for the process to end while its input is open, and gives its status.
    pub fn ended(&mut self) -> Option<i32> {
        let start = Instant::now();
        while start.elapsed() < LIMIT {
            if let Some(status) = self.child.try_wait().expect("a child can be waited for") {
                return status.code();
            }
            thread::sleep(Duration::from_millis(2));
        }
        panic!("the server does not end");
    }

    /// The most memory that the server held so far, in bytes, where the system tells.
    pub fn peak(&self) -> Option<u64> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).ok()?;
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
        let kibibytes: u64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
        Some(kibibytes * 1024)
    }

    /// Closes its input.
    pub fn hang_up(&mut self) {
        self.stdin = None;
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// One message; nothing once the output is closed.
fn read(from: &mut impl BufRead) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if from.read_line(&mut line).ok()? == 0 {
            return None;
        }
        let line = line.trim();
        if line.is_empty() {
            break;
        }
        if let Some(told) = line.strip_prefix("Content-Length: ") {
            length = told.parse().ok()?;
        }
    }
    let mut body = vec![0; length];
    from.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}
