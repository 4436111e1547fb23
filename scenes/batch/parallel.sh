#!/usr/bin/env bash
# A search shared out among this machine's cores by GNU Parallel, then joined: the answer of one run, to the last byte.
#   bash scenes/batch/parallel.sh SCENE [PARTS] [FOLDER]
# Run it again after a breakdown: parts that are there stay, the others are worked out. A part is written whole or not
# at all, and one of another scene or version is refused by its name when they are joined: delete it then.
# FORETONE names the program.
set -euo pipefail
scene=$1 parts=${2:-64} folder=${3:-parts}/${2:-64}
mkdir -p "$folder"
export foretone=${FORETONE:-foretone} scene parts folder
part() { [ -s "$folder/$1.json" ] || "$foretone" match "$scene" --threads 1 --quiet --part "$1/$parts" --json "$folder/$1.json"; }
export -f part
seq "$parts" | parallel --retries 3 part
files=()
for k in $(seq "$parts"); do files+=("$folder/$k.json"); done
"$foretone" match "$scene" --join "${files[@]}"
