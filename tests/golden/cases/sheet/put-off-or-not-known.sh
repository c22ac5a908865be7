# No work because it waits, and none because nobody knows, is no all-clear.
whichever sheet sprayer --as-of 2026-06-15 | grep "^No work"
cp -r fleet one && cd one && sed -i "/^machines:/,\$d" fleet.yaml && rm register.csv record.db* && cat >> fleet.yaml <<FLEET
machines:
  pump-north: {schedule: drainage-pump, site: wullamere, bought: 2026-06-01}
FLEET
whichever --fleet . new . >/dev/null
whichever --fleet . sheet --as-of 2026-06-15
whichever --fleet . sheet pump-north --as-of 2026-06-15 | grep "^What is due"
