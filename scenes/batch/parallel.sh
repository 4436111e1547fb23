#!/usr/bin/env bash
# A search shared out among this machine's cores (or, with --sshlogin in PARALLEL, among several machines) by GNU
# Parallel, then joined: the answer of one run, to the last byte.
#   bash scenes/batch/parallel.sh SCENE [PARTS] [FOLDER]
# Run it again after a breakdown: parts that are there stay, the others are worked out. A part is written whole or not
# at all, and one of another scene or version is refused when they are joined. FORETONE names the program.
set -euo pipefail
scene=$1 parts=${2:-64} folder=${3:-parts}
mkdir -p "$folder"
export foretone=${FORETONE:-foretone} scene parts folder
part() { [ -s "$folder/$1.json" ] || "$foretone" match "$scene" --threads 1 --quiet --part "$1/$parts" --json "$folder/$1.json"; }
export -f part
seq "$parts" | parallel --retries 3 part
seq "$parts" | sed "s|.*|$folder/&.json|" | xargs "$foretone" match "$scene" --join
