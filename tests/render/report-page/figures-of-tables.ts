// What each column of a report's tables for a spreadsheet holds, by its heading: written from the results, apart from the
// program's own lists, so that a figure under a wrong heading is seen.

import { weekClock } from '../../../src/core/model/week-time-text.js';
import type { ReportResults } from '../../../src/core/report/report-results.js';

type Row = Readonly<Record<string, string | number | boolean | null>>;

export function figuresOfTables(results: ReportResults): Readonly<Record<string, readonly Row[]>> {
  const { schedule, shifts, size, simulation, costCase, points, comparison, mix, jobs } = results;
  const plan = jobs?.plans.find((p) => p.pattern === jobs.best);
  const stretch = (t: number) => {
    const { day, shift, startS, endS } = plan!.stretches[t]!;
    return { day, shift, from: weekClock(startS / 60), to: weekClock(endS / 60) };
  };
  return {
    'events.csv': schedule.events.map((e) => ({
      ...{ part: e.part, step: e.step, hand: e.hand, action: e.action, station: e.station },
      ...{ end_s: e.endS, start_s: e.startS },
    })),
    'station-times.csv': schedule.stations.map((s) => ({
      ...{ empty_s: s.emptyS, wait_robot_s: s.waitRobotS, handling_s: s.handlingS },
      ...{ processing_s: s.processingS, utilization_pct: s.utilizationPct, kind: s.kind, station: s.station },
    })),
    'critical-path.csv': schedule.bottleneck.chain.map((link) => ({ time_s: link.S, element: link.what })),
    'what-if.csv': schedule.whatIf.map((w) => ({
      ...{ no_gain_because: w.noGain, proven: w.proven, gain_vs_target_pct: w.goalGainPct },
      ...{ gain_per_h: w.gainPerH, parts_per_h: w.partsPerH, change: w.change },
    })),
    'gain-per-second.csv': schedule.improvements.map((i) => ({
      ...{ parts_per_h_gained_by_1_s_less: i.partsPerHPerSecond, element: i.element },
    })),
    'size-sensitivity.csv': size.sensitivity.map((s) => ({
      ...{ parts_per_h: s.partsPerH, machines: s.machines, change_pct: s.changePct, all_times_of: s.element },
    })),
    'mix-hours.csv': (mix?.patterns ?? []).flatMap((p) =>
      p.resources.map((r) => ({
        ...{ used_pct: r.usedPct, available_h: r.availableH, used_h: r.usedH, resource: r.resource },
        [mix!.valued === 'contribution' ? 'one_more_hour_is_worth' : 'parts_for_one_more_hour']: r.worthPerH,
        pattern: p.pattern ?? 'the week',
      })),
    ),
    'simulated-stations.csv': simulation.result.stations
      .filter((s) => s.kind === 'machine' || s.kind === 'bench')
      .map((s) => ({
        ...{
          working_pct: s.processingPct.mean,
          blocked_pct: s.waitRobotPct.mean,
          starved_pct: s.emptyPct.mean,
        },
        load_and_doors_pct: s.handlingPct.mean + s.partLoadedPct.mean,
        planned_stops_pct: s.plannedStopWaitPct.mean + s.plannedStopPct.mean,
        ...{ waits_for_operator_pct: s.downWaitPct.mean, repair_pct: s.downRepairPct.mean },
        ...{ changeovers_pct: s.changeoverPct.mean, random_stops_per_shift: s.randomStopsPerShift.mean },
        station: s.station,
      })),
    'size.csv': size.rows.map((r) => ({
      ...{ machines: r.machines, recommended: r.machines === size.recommended?.machines, proven: r.proven },
      ...{ margin_per_h: r.contributionPerH, cost_per_part: r.costPerPart },
      ...{ wait_robot_pct: r.waitRobotPct, machines_pct: r.machineUtilizationPct },
      ...{ robot_pct: r.robotUtilizationPct, parts_per_shift: r.partsPerShift, parts_per_h: r.partsPerH },
      machine_names: r.machineNames.join(', '),
      ...{ wait_busy_robot_pct: r.waitBusyPct, more_parts_per_h: r.marginalPartsPerH },
      simulated_margin_per_h: r.simulated?.contributionPerH ?? null,
      simulated_cost_per_part: r.simulated?.costPerPart?.mean ?? null,
      simulated_machines_pct: r.simulated?.machineUtilizationPct ?? null,
      simulated_robot_pct: r.simulated?.robotUtilizationPct ?? null,
      simulated_stopped_pct: r.simulated?.stoppedPct ?? null,
      simulated_wait_robot_pct: r.simulated?.waitRobotPct ?? null,
      simulated_high: r.simulated?.partsPerShift.ciHigh ?? null,
      simulated_low: r.simulated?.partsPerShift.ciLow ?? null,
      simulated_parts_per_shift: r.simulated?.partsPerShift.mean ?? null,
    })),
    'patterns.csv': (shifts?.patterns ?? []).map((p) => ({
      ...{ margin_per_week: p.contributionPerWeek, labour_per_part: p.labourCostPerPart },
      ...{ labour_per_week: p.labourCostPerWeek, robot_pct: p.robotUtilizationPct },
      maximum_per_week: p.ceilingPerWeek.total!,
      good_parts_per_week: p.partsPerWeek.total!,
      good_parts_per_shift: p.partsPerShift.total!,
      ...{ shifts_per_week: p.shiftsPerWeek, unattended_h: p.unattendedH, attended_h: p.attendedH },
      ...{ hours_per_week: p.hoursPerWeek, pattern: p.pattern },
    })),
    'changeover-times.csv': (shifts?.patterns ?? []).flatMap((p) =>
      p.changeovers.map((c) => ({
        ...{
          people: c.people,
          connection_min: c.wayMin,
          connection: c.way,
          work_min: c.minutes,
          downtime_min: c.standMin,
        },
        ...{ people_done: c.until, back_in_production: c.standsUntil, start: c.from },
        ...{ station: c.station, pattern: p.pattern },
      })),
    ),
    'mix.csv': (mix?.patterns ?? []).flatMap((p) =>
      p.parts.map((part) => ({
        ...{ demand_per_week: part.demandPerWeek, good_parts_per_week: part.goodPerWeek },
        ...{ part: part.part, pattern: p.pattern ?? 'the week' },
      })),
    ),
    'compare.csv': (comparison?.differences ?? []).map((d) => ({
      ...{
        clear: d.clear,
        parts_per_shift_high: d.partsPerShift.ciHigh,
        parts_per_shift_low: d.partsPerShift.ciLow,
      },
      ...{ parts_per_shift: d.partsPerShift.mean, second: d.b, first: d.a },
    })),
    'points.csv': (points?.stations ?? []).map((s) => ({
      largest_drop_at: s.voltageDropAt,
      ...{ voltage_drop_pct: s.voltageDropPct, amps_with_reserve: s.ampsWithReserve, amps: s.amps },
      ...{ spare_outputs: s.spareOutputs, spare_inputs: s.spareInputs, boxes: s.boxes },
      ...{ outputs: s.outputs, inputs: s.inputs, station: s.station },
    })),
    'cost-options.csv':
      costCase?.status !== 'found'
        ? []
        : costCase.alternatives.map((a) => ({
            ...{ option: a.name, machines: a.stations.join(', '), boxes: a.boxes, initial_cost: a.capital },
            ...{ running_cost_per_year: a.annualCost, present_value_of_costs: a.npvCost },
            ...{ equivalent_annual_cost: a.annualEquivalent, in_budget: a.withinBudget },
          })),
    'cost-machines.csv':
      costCase?.status !== 'found'
        ? []
        : costCase.byStation.map((s) => ({
            ...{ machine: s.station, changeovers_per_year: s.changeoversPerYear, boxes: s.boxes },
            ...{ saved_min_per_year: s.savedMinPerYear, saving_per_year: s.savingPerYear },
            ...{ initial_cost: s.capital, present_value: s.npv, present_value_after_tax: s.npvAfterTax },
            break_even_per_year: perYear(
              costCase.breakEvenChangeovers.byStation[s.station] ?? null,
              costCase.horizonYears,
            ),
          })),
    'cash-flow.csv':
      costCase?.status !== 'found'
        ? []
        : Array.from({ length: costCase.horizonYears + 1 }, (_, year) => ({
            year,
            ...Object.fromEntries(costCase.alternatives.map((a) => [a.name, a.cashFlow[year]!])),
            ...Object.fromEntries(
              costCase.alternatives
                .filter((a) => a.increment)
                .map((a) => [`${a.name} less the harness`, a.increment!.cashFlow[year]!]),
            ),
          })),
    'station-intervals.csv': (simulation.result.stations ?? []).flatMap((s) =>
      (
        [
          ['working', s.processingPct],
          ['robot at the door, doors', s.handlingPct],
          ['loaded, waits until the fixture is full', s.partLoadedPct],
          ['blocked', s.waitRobotPct],
          ['starved', s.emptyPct],
          ['waits for operator', s.downWaitPct],
          ['repair', s.downRepairPct],
          ['planned stop due, waits for operator', s.plannedStopWaitPct],
          ['planned stop', s.plannedStopPct],
          ['changeover', s.changeoverPct],
        ] as const
      ).map(([figure, e]) => ({
        ...{
          share_pct_high: e.ciHigh,
          share_pct_low: e.ciLow,
          share_pct: e.mean,
          figure,
          station: s.station,
        },
      })),
    ),
    'simulated-losses.csv': [
      { cause: 'maximum: machines never wait or stop', parts: simulation.result.ceilingPerShift },
      ...simulation.result.losses.map((l) => ({
        ...{ cause: l.cause, parts: -l.partsPerShift },
        ...(l.ciLow === null ? {} : { low: -l.ciHigh!, high: -l.ciLow }),
      })),
      {
        cause: 'good parts',
        parts: simulation.result.losses.reduce(
          (left, l) => left - l.partsPerShift,
          simulation.result.ceilingPerShift ?? 0,
        ),
      },
    ].map(
      ({
        cause,
        parts,
        low = null,
        high = null,
      }: {
        cause: string;
        parts: number | null;
        low?: number | null;
        high?: number | null;
      }) => ({
        ...{ cause, parts_per_shift: parts, parts_per_shift_low: low, parts_per_shift_high: high },
      }),
    ),
    'jobs-by-shift.csv': (plan?.jobs ?? []).flatMap((job) =>
      job.made.map(({ stretch: t, parts }) => ({
        ...{ late: plan!.stretches[t]!.endS > job.dueMin * 60, good_parts: parts, ...stretch(t) },
        ...{ part: job.part, job: job.job, pattern: plan!.pattern },
      })),
    ),
    'machines-by-shift.csv': (plan?.runs ?? []).map((run) => ({
      ...{ machine_h: run.machineH, parts_begun: run.parts, part: run.part, ...stretch(run.stretch) },
      ...{ station: run.station, pattern: plan!.pattern },
    })),
    'setups-by-shift.csv': (plan?.setups ?? []).map((s) => ({
      ...{
        people: s.people,
        downtime_min: s.standsMin,
        minutes: s.minutes,
        to_part: s.to,
        from_part: s.from,
      },
      ...{ connection: s.way, ...stretch(s.stretch), station: s.station, pattern: plan!.pattern },
    })),
  };
}

function perYear(count: number | null, years: number): number | null {
  return count === null ? null : count / years;
}
