for machine in tractor-drill generator-main dryer pump-south sprayer combine; do
  whichever sheet $machine --within 6m --as-of 2026-06-15 | grep -E '^ ?[0-9]+\. |\(.*\) · 2026|^In this order|Only with it cold|not before: put off|Competent person:'
done
