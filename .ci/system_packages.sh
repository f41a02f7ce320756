#!/usr/bin/env bash
# Looks for the system packages that Lastbolt needs and installs what is missing, or says what to install.
# Usage: system_packages.sh demo|test
set -euo pipefail
purpose="${1:-demo}"
missing=()
has_library() { ldconfig -p 2>/dev/null | grep -q "$1" || ls /usr/lib/*/"$1"* /usr/lib/"$1"* >/dev/null 2>&1; }

python3 -c 'import ensurepip, venv' 2>/dev/null || missing+=(python3-venv)
has_library libzbar.so.0 || missing+=(libzbar0)
if [ "$purpose" = test ]; then
  command -v pdftoppm >/dev/null 2>&1 || missing+=(poppler-utils)
  command -v openssl >/dev/null 2>&1 || missing+=(openssl)
  command -v chromium >/dev/null 2>&1 || missing+=(chromium)
fi
[ ${#missing[@]} -eq 0 ] && exit 0

echo "Missing system packages: ${missing[*]}"
if ! command -v apt-get >/dev/null 2>&1; then
  echo "Install them with your system's package manager, then run make again." >&2
  exit 1
fi
if [ "$(id -u)" = 0 ]; then
  as_root=()
elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
  as_root=(sudo)
else
  echo "No rights to install them here. Run:  sudo apt-get install ${missing[*]}  and then make again." >&2
  exit 1
fi
echo "Installing them with apt-get ..."
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
