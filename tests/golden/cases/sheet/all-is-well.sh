cp -r fleet one && cd one && sed -i "/^machines:/,\$d" fleet.yaml && rm register.csv record.db* && cat >> fleet.yaml <<FLEET
machines:
  pump-north: {schedule: drainage-pump, site: wullamere, in-service: {on: 2026-06-01, at: 0}}
FLEET
whichever --fleet . new . >/dev/null
whichever --fleet . reading pump-north 2 --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever --fleet . sheet --exit-code --as-of 2026-06-15
whichever --fleet . sheet --format json --as-of 2026-06-15
