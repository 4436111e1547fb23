#!/usr/bin/env bash
# A search shared out among the nodes of a cluster by a Slurm job array, then joined: the answer of one run, to the last
# byte.
#   bash scenes/batch/slurm.sh SCENE [PARTS] [FOLDER]       (on the login node; the folder is one that all nodes see)
# Run it again after a breakdown: parts that are there stay, the others are worked out. A part is written whole or not
# at all, and one of another scene or version is refused by its name when they are joined: delete it then.
# FORETONE names the program; options for sbatch (account, partition, time) go into SBATCH_ACCOUNT and the like.
set -euo pipefail
foretone=${FORETONE:-foretone}
case "${1:-}" in
  --one)
    scene=$2 parts=$3 folder=$4 k=$SLURM_ARRAY_TASK_ID
    [ -s "$folder/$k.json" ] || "$foretone" match "$scene" --threads 1 --quiet --part "$k/$parts" --json "$folder/$k.json" ;;
  --all)
    scene=$2 parts=$3 folder=$4 files=()
    for k in $(seq "$parts"); do files+=("$folder/$k.json"); done
    "$foretone" match "$scene" --out "$folder" --json "$folder/match.json" --replace --join "${files[@]}" ;;
  *)
    scene=$1 parts=${2:-64} folder=${3:-parts}/${2:-64}
    mkdir -p "$folder"
    array=$(sbatch --parsable --job-name=foretone-part --array="1-$parts" --cpus-per-task=1 --requeue \
      --output="$folder/%a.log" "$0" --one "$scene" "$parts" "$folder")
    sbatch --parsable --job-name=foretone-join --dependency="afterok:$array" --output="$folder/join.log" \
      "$0" --all "$scene" "$parts" "$folder" >/dev/null
    echo "parts: job $array, logs in $folder; the answer will be in $folder/match.json and $folder/join.log" ;;
esac
