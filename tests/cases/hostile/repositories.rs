//! Repositories that somebody else made: their settings name programs, reach
//! out of the machine, point elsewhere or never answer. Nothing of it is run,
//! read, written or waited for.

use super::{folder, says};
use snell_tests::{Build, Ran};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

const RIG: &str = "rig a\n  tippet 1 m of 6X fluoro\n  point #14 2.8 mm tungsten\n";

/// Every command that asks git.
const ASKING: [&[&str]; 7] = [
    &["season"],
    &["season", "--who"],
    &["season", "--until", "HEAD"],
    &["season", "--form", "json"],
    &["compare"],
    &["compare", "HEAD~", "HEAD"],
    &["compare", "HEAD"],
];

/// A folder with a repository in it, and a program that leaves a mark if it is run.
struct Trap {
    folder: TempDir,
}

impl Trap {
    fn new() -> Self {
        let trap = Self { folder: folder() };
        let program = trap.at("evil.sh");
        fs::write(
            &program,
            format!("#!/bin/sh\ntouch '{}'\nexit 1\n", trap.at("ran").display()),
        )
        .unwrap();
        #[cfg(unix)]
        fs::set_permissions(&program, std::os::unix::fs::PermissionsExt::from_mode(0o755)).unwrap();
        fs::create_dir(trap.at("repository")).unwrap();
        trap
    }

    /// The same with two commits of one rig.
    fn with_history() -> Self {
        let trap = Self::new();
        trap.git(&["init", "-q", "-b", "main"]);
        for length in ["1 m", "2 m"] {
            fs::write(trap.at("repository/a.rig"), RIG.replace("1 m", length)).unwrap();
            trap.git(&["add", "."]);
            trap.git(&["commit", "-q", "-m", length]);
        }
        trap
    }

    fn at(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    fn command(&self, program: impl AsRef<std::ffi::OsStr>, arguments: &[&str]) -> Command {
        let mut command = Command::new(program);
        command
            .args(arguments)
            .current_dir(self.at("repository"))
            .stdin(Stdio::null())
            .env("HOME", self.folder.path())
            .env("NO_COLOR", "1")
            .env("GIT_CONFIG_NOSYSTEM", "1")
            .env("GIT_CEILING_DIRECTORIES", self.folder.path());
        for name in ["AUTHOR", "COMMITTER"] {
            command.env(format!("GIT_{name}_NAME"), "An Angler");
            command.env(format!("GIT_{name}_EMAIL"), "angler@valley.example");
        }
        command
    }

    #[track_caller]
    fn git(&self, arguments: &[&str]) -> String {
        let output = self.command("git", arguments).output().unwrap();
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.success(), "git {arguments:?}: {err}");
        String::from_utf8(output.stdout).unwrap().trim().to_owned()
    }

    fn snell(&self, arguments: &[&str]) -> Ran {
        let output = self
            .command(Build::AsTests.program(), arguments)
            .output()
            .unwrap();
        Ran {
            status: output.status.code(),
            out: String::from_utf8_lossy(&output.stdout).into_owned(),
            err: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    }

    /// Runs every command that asks git; none may run the program.
    #[track_caller]
    fn runs_nothing(&self) {
        for arguments in ASKING {
            let ran = self.snell(arguments);
            assert!(!ran.told().contains("panicked"), "{arguments:?}: {}", ran.told());
            assert!(!self.at("ran").exists(), "{arguments:?} ran it: {}", ran.told());
        }
    }

    fn evil(&self) -> String {
        self.at("evil.sh").display().to_string()
    }
}

/// A folder of a project that looks like a bare repository, with settings of its own.
#[test]
fn a_bare_repository_among_the_files() {
    let trap = Trap::new();
    trap.git(&["init", "-q", "--bare", "."]);
    fs::write(trap.at("repository/a.rig"), RIG).unwrap();
    let settings = format!(
        "[core]\nrepositoryformatversion = 0\nbare = false\nworktree = .\n[log]\nshowSignature = true\n[gpg]\nprogram = {}\n",
        trap.evil()
    );
    fs::write(trap.at("repository/config"), settings).unwrap();
    let asked = |arguments: &[&str]| {
        let mut command = trap.command("git", arguments);
        command
            .env("GIT_DIR", trap.at("repository"))
            .env("GIT_WORK_TREE", trap.at("repository"));
        command
    };
    assert!(asked(&["add", "a.rig"]).status().unwrap().success());
    let tree = String::from_utf8(asked(&["write-tree"]).output().unwrap().stdout).unwrap();
    let who = "An Angler <angler@valley.example> 1700000000 +0000";
    let signature = "-----BEGIN PGP SIGNATURE-----\n \n iQEz\n -----END PGP SIGNATURE-----";
    let commit = format!("tree {tree}author {who}\ncommitter {who}\ngpgsig {signature}\n\nfirst\n");
    fs::write(trap.at("commit"), commit).unwrap();
    let written = asked(&["hash-object", "-t", "commit", "-w"])
        .arg(trap.at("commit"))
        .output()
        .unwrap();
    let id = String::from_utf8(written.stdout).unwrap();
    assert!(
        asked(&["update-ref", "HEAD", id.trim()])
            .status()
            .unwrap()
            .success()
    );
    assert!(asked(&["log", "-1"]).output().unwrap().status.success());
    assert!(
        trap.at("ran").exists(),
        "the trap is set: git itself runs the program"
    );
    fs::remove_file(trap.at("ran")).unwrap();
    trap.runs_nothing();
    says(&trap.snell(&["season"]), 2, "is bare");
}

/// A clone that lacks an object and says where to fetch it.
#[test]
fn a_partial_clone_fetches_nothing() {
    let fetching: [&[(&str, &str)]; 3] = [
        &[("remote.origin.url", "ssh://x/y"), ("core.sshCommand", "EVIL")],
        &[
            ("remote.origin.url", "ext::EVIL x"),
            ("protocol.ext.allow", "always"),
        ],
        &[
            ("remote.origin.url", "."),
            ("remote.origin.uploadpack", "EVIL"),
            ("protocol.file.allow", "always"),
        ],
    ];
    for settings in fetching {
        let trap = Trap::with_history();
        let blob = trap.git(&["rev-parse", "HEAD~:a.rig"]);
        let (folder, name) = blob.split_at(2);
        fs::remove_file(trap.at("repository/.git/objects").join(folder).join(name)).unwrap();
        trap.git(&["config", "core.repositoryFormatVersion", "1"]);
        trap.git(&["config", "extensions.partialClone", "origin"]);
        trap.git(&["config", "remote.origin.promisor", "true"]);
        for (name, value) in settings {
            trap.git(&["config", name, &value.replace("EVIL", &trap.evil())]);
        }
        let _ = trap.command("git", &["cat-file", "-p", &blob]).output().unwrap();
        assert!(trap.at("ran").exists(), "the trap is set: {settings:?}");
        fs::remove_file(trap.at("ran")).unwrap();
        trap.runs_nothing();
        says(&trap.snell(&["season"]), 2, "this clone does not hold it");
    }
}

/// Settings that name a program. Source: git-config(1).
#[test]
fn settings_that_name_a_program() {
    let settings = [
        "core.fsmonitor",
        "core.pager",
        "core.editor",
        "core.askPass",
        "core.alternateRefsCommand",
        "core.gitProxy",
        "pager.log",
        "pager.ls-tree",
        "diff.external",
        "diff.rig.command",
        "diff.rig.textconv",
        "filter.rig.clean",
        "filter.rig.smudge",
        "filter.rig.process",
        "gpg.program",
        "gpg.ssh.program",
        "credential.helper",
        "interactive.diffFilter",
        "uploadpack.packObjectsHook",
        "alias.log",
        "alias.rev-parse",
    ];
    let trap = Trap::with_history();
    for name in settings {
        let value = if name.starts_with("alias") {
            format!("!{}", trap.evil())
        } else {
            trap.evil()
        };
        trap.git(&["config", name, &value]);
    }
    trap.git(&["config", "log.showSignature", "true"]);
    fs::write(
        trap.at("repository/.gitattributes"),
        "*.rig diff=rig filter=rig\n",
    )
    .unwrap();
    let hooks = trap.at("repository/.git/hooks");
    fs::create_dir_all(&hooks).unwrap();
    for hook in [
        "post-index-change",
        "reference-transaction",
        "post-checkout",
        "fsmonitor-watchman",
    ] {
        fs::copy(trap.evil(), hooks.join(hook)).unwrap();
    }
    trap.runs_nothing();
    assert_eq!(trap.snell(&["season"]).status, Some(0));
}

/// Files are looked for, and settings written, only where the repository is.
#[test]
fn a_repository_that_says_that_its_files_lie_elsewhere() {
    let trap = Trap::with_history();
    fs::create_dir(trap.at("home")).unwrap();
    fs::write(trap.at("home/secret.rig"), "rig secret\n  tippet 1 m of 6X\n").unwrap();
    let home = trap.at("home").display().to_string();
    trap.git(&["config", "core.worktree", &home]);
    for arguments in [&["season"][..], &["compare"], &["start", "--git", "new"]] {
        let ran = trap.snell(arguments);
        says(&ran, 2, "which is not where it is");
        assert!(!ran.told().contains("rig secret"), "{}", ran.told());
    }
    assert_eq!(fs::read_dir(trap.at("home")).unwrap().count(), 1);
}

#[cfg(unix)]
#[test]
fn settings_and_attributes_that_are_links() {
    for link in [".git/config", ".gitattributes"] {
        let trap = Trap::with_history();
        let (target, link) = (trap.at("theirs"), trap.at("repository").join(link));
        fs::write(&target, fs::read_to_string(&link).unwrap_or_default()).unwrap();
        let before = fs::read_to_string(&target).unwrap();
        let _ = fs::remove_file(&link);
        std::os::unix::fs::symlink(&target, &link).unwrap();
        says(&trap.snell(&["start", "--git", "new"]), 2, "it is a link");
        assert_eq!(fs::read_to_string(&target).unwrap(), before);
    }
}

/// A pipe where git reads settings keeps git itself waiting for ever.
#[cfg(unix)]
#[test]
fn a_repository_that_never_answers() {
    let trap = Trap::with_history();
    let pipe = trap.at("pipe");
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    trap.git(&["config", "include.path", &pipe.display().to_string()]);
    says(&trap.snell(&["season"]), 2, "git said nothing");
}

#[test]
fn a_bare_clone_and_no_repository_are_told_apart() {
    let trap = Trap::with_history();
    let output = trap
        .command("git", &["clone", "-q", "--bare", ".", "../bare"])
        .output()
        .unwrap();
    assert!(output.status.success());
    let within = |folder: &Path| {
        let mut command = trap.command(Build::AsTests.program(), &["season"]);
        let output = command.current_dir(folder).output().unwrap();
        Ran {
            status: output.status.code(),
            out: String::new(),
            err: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    };
    says(
        &within(&trap.at("bare")),
        2,
        "is bare: it has no files to look at; clone it first",
    );
    fs::create_dir(trap.at("none")).unwrap();
    says(&within(&trap.at("none")), 2, "lies in no git repository");
}

#[cfg(unix)]
#[test]
fn a_repository_of_somebody_else() {
    let trap = Trap::with_history();
    if std::os::unix::fs::chown(trap.at("repository"), Some(1234), Some(1234)).is_err() {
        // Only a superuser can give a folder away.
        return;
    }
    std::os::unix::fs::chown(trap.at("repository/.git"), Some(1234), Some(1234)).unwrap();
    says(&trap.snell(&["season"]), 2, "belongs to somebody else");
}
