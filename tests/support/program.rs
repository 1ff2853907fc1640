//! The built program, run as a person runs it: arguments and input in; exit
//! status, output and the most memory that it held out.
//!
//! Cargo hands the path of a program only to the tests of its own package, so
//! it is built here once, into the folder that these tests were built into.

use std::ffi::OsStr;
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::thread;
use std::time::{Duration, Instant};

/// Guards a test against a program that never ends or never answers. It is no measure of speed: ten times as long as
/// the longest test takes on a machine that does much else at once.
pub(crate) const GUARD: Duration = Duration::from_secs(600);

/// How the program is built.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Build {
    /// As these tests are.
    AsTests,
    /// As it is shipped; for large inputs.
    Shipped,
}

impl Build {
    /// The program, built if it is missing or older than its source.
    pub fn program(self) -> &'static Path {
        static AS_TESTS: OnceLock<PathBuf> = OnceLock::new();
        static SHIPPED: OnceLock<PathBuf> = OnceLock::new();
        let known = if self == Self::AsTests {
            &AS_TESTS
        } else {
            &SHIPPED
        };
        known.get_or_init(|| self.build())
    }

    fn build(self) -> PathBuf {
        let test = std::env::current_exe().expect("a test has a path");
        // A test lies in target/PROFILE/deps, a program in target/PROFILE.
        let profile = test
            .ancestors()
            .skip(1)
            .find(|folder| !folder.ends_with("deps"))
            .expect("a program lies in a folder");
        let target = profile.parent().expect("target/PROFILE lies in target");
        let shipped = self == Self::Shipped || profile.ends_with("release");
        let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let mut command = Command::new(cargo);
        command
            .args([
                "build",
                "--quiet",
                "--package",
                "snell",
                "--bin",
                "snell",
                "--target-dir",
            ])
            .arg(target);
        command
            .args(shipped.then_some("--release"))
            .current_dir(crate::top());
        let built = command.status().expect("cargo starts");
        assert!(built.success(), "the program does not build");
        let folder = if shipped { "release" } else { "debug" };
        target
            .join(folder)
            .join(format!("snell{}", std::env::consts::EXE_SUFFIX))
    }
}

type Input = Box<dyn FnOnce(&mut dyn Write) -> std::io::Result<()> + Send>;

/// One run of the program.
pub struct Run {
    command: Command,
    input: Option<Input>,
}

/// What a run came to.
#[derive(Debug)]
pub struct Ran {
    /// The exit status; `None` where a signal ended it.
    pub status: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Ran {
    /// Both outputs, for messages that may be on either.
    pub fn told(&self) -> String {
        format!("{}{}", self.out, self.err)
    }
}

/// The most memory that a run held, in bytes; nothing where the system does not tell.
pub type Peak = Option<u64>;

impl Run {
    /// The program with some arguments.
    pub fn new(build: Build, arguments: impl IntoIterator<Item = impl AsRef<OsStr>>) -> Self {
        Self::of(build.program(), arguments)
    }

    /// Another program with some arguments.
    pub fn of(program: &Path, arguments: impl IntoIterator<Item = impl AsRef<OsStr>>) -> Self {
        let mut command = Command::new(program);
        command
            .args(arguments)
            .env("NO_COLOR", "1")
            .env_remove("RUST_BACKTRACE");
        Self { command, input: None }
    }

    /// In this folder.
    #[must_use]
    pub fn within(mut self, folder: &Path) -> Self {
        self.command.current_dir(folder);
        self
    }

    /// With this on standard input.
    #[must_use]
    pub fn input(self, input: impl Into<Vec<u8>>) -> Self {
        let input = input.into();
        self.writes(move |to| to.write_all(&input))
    }

    /// With what `input` writes on standard input; it is not held in memory.
    #[must_use]
    pub fn writes(
        mut self,
        input: impl FnOnce(&mut dyn Write) -> std::io::Result<()> + Send + 'static,
    ) -> Self {
        self.input = Some(Box::new(input));
        self
    }

    /// Runs it to its end.
    pub fn finish(self) -> Ran {
        self.measured().0
    }

    /// Runs it to its end and watches its memory.
    pub fn measured(mut self) -> (Ran, Peak) {
        let stdin = if self.input.is_some() {
            Stdio::piped()
        } else {
            Stdio::null()
        };
        self.command
            .stdin(stdin)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        let mut child = self.command.spawn().expect("the program starts");
        let pipes = (child.stdin.take(), child.stdout.take(), child.stderr.take());
        let input = self.input.take();
        thread::scope(|scope| {
            let (stdin, stdout, stderr) = pipes;
            // A program that has heard enough closes its end, which is no fault.
            scope.spawn(move || input.zip(stdin).map(|(input, mut stdin)| input(&mut stdin)));
            let out = scope.spawn(move || read(stdout));
            let err = scope.spawn(move || read(stderr));
            let (status, peak) = watch(&mut child);
            let text =
                |thread: thread::ScopedJoinHandle<'_, String>| thread.join().expect("reading does not fail");
            let ran = Ran {
                status,
                out: text(out),
                err: text(err),
            };
            (ran, peak)
        })
    }
}

fn read(pipe: Option<impl Read>) -> String {
    let mut bytes = Vec::new();
    if let Some(mut pipe) = pipe {
        pipe.read_to_end(&mut bytes).expect("a pipe can be read");
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn watch(child: &mut Child) -> (Option<i32>, Peak) {
    let start = Instant::now();
    let mut peak = None;
    loop {
        peak = peak.max(high_water(child.id()));
        if let Some(status) = child.try_wait().expect("a child can be waited for") {
            return (status.code(), peak);
        }
        if start.elapsed() > GUARD {
            child.kill().expect("a child can be ended");
            panic!("the program did not end within {GUARD:?}");
        }
        thread::sleep(Duration::from_millis(1));
    }
}

/// The high-water mark of a process's memory. Source: proc_pid_status(5), `VmHWM`.
fn high_water(process: u32) -> Peak {
    let status = fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kilobytes: u64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kilobytes * 1024)
}
