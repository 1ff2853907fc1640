# Installs snell for the person who runs it, on Windows:
#
#   powershell -ExecutionPolicy Bypass -File install.ps1 [-Folder FOLDER] [-From ADDRESS-OR-FOLDER] [-AddToPath yes|no]
#
# It fetches the archive and the list of sums from the release that it came with, compares the sum, and only then unpacks.
# Nothing but the folder is changed, and the user's own PATH, if they say yes.
param(
  [string]$Folder = (Join-Path $env:LOCALAPPDATA 'Programs\snell'),
  [string]$From = '@FROM@',
  [ValidateSet('ask', 'yes', 'no')][string]$AddToPath = 'ask'
)
$ErrorActionPreference = 'Stop'
# Windows PowerShell spends most of a download on painting how far it is.
$ProgressPreference = 'SilentlyContinue'
$version = '@VERSION@'

if ($From.StartsWith('@')) { throw 'This copy belongs to no release; say where the archives are: -From FOLDER' }
if ($From -match '^http://') { throw "$From is an address that anybody on the way can change; say it with https" }
if (-not [Environment]::Is64BitOperatingSystem) { throw 'There is no archive for 32-bit Windows.' }
$name = "snell-$version-windows-x64"
$archive = "$name.zip"
$Folder = $ExecutionContext.SessionState.Path.GetUnresolvedProviderPathFromPSPath($Folder)

$work = Join-Path ([IO.Path]::GetTempPath()) ([IO.Path]::GetRandomFileName())
New-Item -ItemType Directory -Path $work | Out-Null
try {
  foreach ($file in 'SHA256SUMS', $archive) {
    Write-Host "fetching $file from $From"
    if ($From -match '^https://') {
      [Net.ServicePointManager]::SecurityProtocol = [Net.SecurityProtocolType]::Tls12
      Invoke-WebRequest -UseBasicParsing -Uri "$From/$file" -OutFile (Join-Path $work $file)
    } else {
      Copy-Item -LiteralPath (Join-Path $From $file) -Destination $work
    }
  }
  $line = Get-Content (Join-Path $work 'SHA256SUMS') | Where-Object { $_ -match "^[0-9a-f]{64} [ *]$([regex]::Escape($archive))$" }
  if (-not $line) { throw "SHA256SUMS says nothing of $archive" }
  $sum = (Get-FileHash -Algorithm SHA256 -LiteralPath (Join-Path $work $archive)).Hash
  if ($sum -ne $line.Substring(0, 64)) { throw "The sum of $archive is not the one in SHA256SUMS: nothing was installed." }

  Expand-Archive -LiteralPath (Join-Path $work $archive) -DestinationPath $work
  New-Item -ItemType Directory -Force -Path $Folder | Out-Null
  $program = Join-Path $Folder 'snell.exe'
  # A program that runs in an editor can be moved away, but not written over.
  $old = "$program.old"
  Remove-Item -Force -ErrorAction SilentlyContinue -LiteralPath $old
  if (Test-Path -LiteralPath $program) { Move-Item -LiteralPath $program -Destination $old }
  Copy-Item -Force -LiteralPath (Join-Path $work "$name\snell.exe") -Destination $program
  Remove-Item -Force -ErrorAction SilentlyContinue -LiteralPath $old
  & $program --version
  if ($LASTEXITCODE -ne 0) { throw "The program does not run here; it ended with $LASTEXITCODE." }
} finally {
  Remove-Item -Recurse -Force -LiteralPath $work
}

# As it stands in the registry: a PATH may name other variables, which must stay names.
$key = [Microsoft.Win32.Registry]::CurrentUser.CreateSubKey('Environment')
$path = [string]$key.GetValue('Path', '', [Microsoft.Win32.RegistryValueOptions]::DoNotExpandEnvironmentNames)
if (($path -split ';') -contains $Folder) {
  Write-Host "installed in $Folder; try: snell start"
  return
}
if ($AddToPath -eq 'ask') {
  $AddToPath = if ((Read-Host "installed in $Folder; put that on your PATH? [y/N]") -match '^y') { 'yes' } else { 'no' }
}
if ($AddToPath -eq 'yes') {
  $key.SetValue('Path', "$path;$Folder".TrimStart(';'), [Microsoft.Win32.RegistryValueKind]::ExpandString)
  # Taking away a variable that is not there tells the programs that run to read all of them again.
  [Environment]::SetEnvironmentVariable('snell-was-installed', $null, 'User')
  Write-Host 'done; open a new terminal and try: snell start'
} else {
  Write-Host "call it by its whole path: $program"
}
