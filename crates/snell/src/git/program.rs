//! The one place that starts the git program, so that nothing that a
//! repository says can make it run another one, reach a network, or wait for
//! ever.
//!
//! Whoever wrote a repository wrote its settings too, and several of them name
//! programs. So git is started with those settings overruled, with no more of
//! the environment than it needs, and is ended when it has been silent for too
//! long. What the user's own settings say stays in force otherwise.

use crate::trouble::Trouble;
use snell_finding::Limit;
use std::ffi::OsStr;
use std::io::{self, Read};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, sync_channel};
use std::thread;
use std::time::Duration;

/// Settings that overrule those of the repository. Each names a program, opens a file of the repository's
/// choosing, or leaves the machine. Source: git-config(1).
const OVERRULED: &[&str] = &[
    // A folder that looks like a bare repository is none unless somebody says so.
    "safe.bareRepository=explicit",
    "protocol.allow=never",
    "core.sshCommand=false",
    "core.gitProxy=",
    "core.fsmonitor=false",
    "core.hooksPath=/dev/null",
    "core.pager=cat",
    "core.askPass=false",
    "core.alternateRefsCommand=false",
    "credential.helper=",
    "log.showSignature=false",
    "gpg.program=false",
    "diff.external=",
    "diff.orderFile=/dev/null",
    "log.mailmap=false",
    "submodule.recurse=false",
    "fetch.recurseSubmodules=false",
    "maintenance.auto=false",
    "gc.auto=0",
];

/// What of the environment git is given: where programs and the user's own settings lie, and which repository
/// was named by whoever started us.
const HANDED_ON: &[&str] = &[
    "PATH",
    "HOME",
    "USERPROFILE",
    "XDG_CONFIG_HOME",
    "SYSTEMROOT",
    "TEMP",
    "TMP",
    "TMPDIR",
    "GIT_DIR",
    "GIT_WORK_TREE",
    "GIT_COMMON_DIR",
    "GIT_INDEX_FILE",
    "GIT_OBJECT_DIRECTORY",
    "GIT_ALTERNATE_OBJECT_DIRECTORIES",
    "GIT_CEILING_DIRECTORIES",
    "GIT_DISCOVERY_ACROSS_FILESYSTEM",
    "GIT_CONFIG_NOSYSTEM",
    "GIT_CONFIG_SYSTEM",
    "GIT_CONFIG_GLOBAL",
];

/// What git is told besides: to fetch nothing, ask nothing, lock nothing, and speak plain English.
const SAID: &[(&str, &str)] = &[
    ("GIT_NO_LAZY_FETCH", "1"),
    // An empty list: no protocol is allowed, whatever the settings say.
    ("GIT_ALLOW_PROTOCOL", ""),
    ("GIT_PROTOCOL_FROM_USER", "0"),
    ("GIT_TERMINAL_PROMPT", "0"),
    ("GIT_OPTIONAL_LOCKS", "0"),
    ("GIT_PAGER", "cat"),
    ("LC_ALL", "C"),
];

/// For so long git may say nothing. It answers in milliseconds; what is silent for this long waits for something
/// that will not come, such as a pipe in the place of a file.
const SILENCE: Duration = Duration::from_secs(Limit::GitSilence.most());

/// How much of what git complains of is kept.
const COMPLAINT: u64 = 16 * 1024;

/// A git command to be run in a folder.
pub fn command(folder: &Path, arguments: impl IntoIterator<Item = impl AsRef<OsStr>>) -> Command {
    let mut command = Command::new("git");
    command.env_clear();
    let handed = HANDED_ON
        .iter()
        .filter_map(|name| Some((name, std::env::var_os(name)?)));
    command.envs(handed).envs(SAID.iter().copied());
    command.arg("-C").arg(folder).arg("--no-pager");
    for setting in OVERRULED {
        command.args(["-c", setting]);
    }
    command.args(arguments).stdin(Stdio::null());
    command
}

/// What git printed, or its complaint.
///
/// # Errors
/// There is no git program, or it was silent for too long.
pub fn run(command: Command) -> Result<Result<Vec<u8>, String>, Trouble> {
    let mut running = Running::start(command)?;
    let mut printed = Vec::new();
    running.read_to_end(&mut printed).map_err(silent)?;
    if running.ends_well()? {
        return Ok(Ok(printed));
    }
    Ok(Err(running.complaint()))
}

/// A git that is running; it ends with this value.
pub struct Running {
    child: Child,
    /// What it is asked.
    pub to: Option<ChildStdin>,
    from: Patient,
    complaints: Receiver<String>,
}

impl Running {
    /// Starts a command.
    ///
    /// # Errors
    /// There is no git program.
    pub fn start(mut command: Command) -> Result<Self, Trouble> {
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().map_err(not_started)?;
        let no_pipe = || Trouble::Git("git could not be started: it has no output".to_owned());
        let out = child.stdout.take().ok_or_else(no_pipe)?;
        let err = child.stderr.take().ok_or_else(no_pipe)?;
        let (tell, complaints) = sync_channel(1);
        thread::spawn(move || {
            let mut told = Vec::new();
            let mut err = err.take(COMPLAINT);
            let _ = err.read_to_end(&mut told);
            // The rest is read too, or git would wait for somebody to do it.
            let _ = io::copy(&mut err.into_inner(), &mut io::sink());
            tell.send(String::from_utf8_lossy(&told).into_owned())
        });
        Ok(Self {
            to: child.stdin.take(),
            child,
            from: Patient::new(out),
            complaints,
        })
    }

    fn ends_well(&mut self) -> Result<bool, Trouble> {
        drop(self.to.take());
        let status = self.child.wait().map_err(not_started)?;
        Ok(status.success())
    }

    /// The first line of what it complained of, in its own words.
    fn complaint(&self) -> String {
        let told = self.complaints.recv_timeout(SILENCE).unwrap_or_default();
        let line = told
            .lines()
            .find(|line| line.starts_with("fatal:"))
            .or(told.lines().next());
        line.unwrap_or("git failed")
            .trim_start_matches("fatal: ")
            .to_owned()
    }
}

impl Read for Running {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        self.from.read(into)
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // Whoever wanted its answers has them, or will not get them.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Reads what git answers, and gives up when it is silent for too long.
struct Patient {
    chunks: Receiver<io::Result<Vec<u8>>>,
    chunk: Vec<u8>,
    read: usize,
}

/// How many chunks may wait to be read, so that a long answer is not held whole.
const AHEAD: usize = 8;
const CHUNK: usize = 64 * 1024;

impl Patient {
    fn new(from: impl Read + Send + 'static) -> Self {
        let (send, chunks) = sync_channel(AHEAD);
        thread::spawn(move || hand_on(from, &send));
        Self {
            chunks,
            chunk: Vec::new(),
            read: 0,
        }
    }
}

/// Hands on what is read until there is no more of it, or nobody wants it.
fn hand_on(mut from: impl Read, to: &SyncSender<io::Result<Vec<u8>>>) {
    loop {
        let mut chunk = vec![0; CHUNK];
        let read = from.read(&mut chunk).map(|count| {
            chunk.truncate(count);
            chunk
        });
        let last = read.as_ref().map_or(true, Vec::is_empty);
        if to.send(read).is_err() || last {
            return;
        }
    }
}

impl Read for Patient {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.read == self.chunk.len() {
            self.chunk = match self.chunks.recv_timeout(SILENCE) {
                Ok(chunk) => chunk?,
                Err(RecvTimeoutError::Disconnected) => Vec::new(),
                Err(RecvTimeoutError::Timeout) => return Err(io::ErrorKind::TimedOut.into()),
            };
            self.read = 0;
        }
        let count = into.len().min(self.chunk.len() - self.read);
        into[..count].copy_from_slice(&self.chunk[self.read..self.read + count]);
        self.read += count;
        Ok(count)
    }
}

/// Why what git answers cannot be read.
fn silent(error: io::Error) -> Trouble {
    Trouble::Git(match error.kind() {
        io::ErrorKind::TimedOut => format!(
            "git said nothing for {} seconds and was ended; something in this repository keeps it waiting",
            SILENCE.as_secs()
        ),
        _ => format!("what git answered could not be read: {error}"),
    })
}

/// Why git could not be started.
fn not_started(error: io::Error) -> Trouble {
    Trouble::Git(match error.kind() {
        io::ErrorKind::NotFound => "the program `git` is not on this machine's search path".to_owned(),
        _ => format!("git could not be started: {error}"),
    })
}
