import type { Calculation } from '../calculation.js';
import { capability } from './capability.js';
import { cusumChart } from './cusum-chart.js';
import { ewmaChart } from './ewma-chart.js';
import { individualsChart } from './individuals-chart.js';
import { everyRule, ruleNames } from './nelson.js';
import { runRules } from './run-rules.js';
import { xbarRChart } from './xbar-r-chart.js';
import { xbarSChart } from './xbar-s-chart.js';

export { capability, cusumChart, everyRule, ewmaChart, individualsChart, ruleNames, runRules, xbarRChart, xbarSChart };

/** Charts, tests for special causes and capability. */
export const statisticsCalculations: readonly Calculation[] = [
  individualsChart,
  xbarRChart,
  xbarSChart,
  ewmaChart,
  cusumChart,
  runRules,
  capability,
];
