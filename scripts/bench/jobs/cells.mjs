// Weeks of a shop with one robot, drawn with a fixed seed: machines in two groups, parts that run on one to three machines of
// a group, jobs due at the ends of days and at some times of day.
function generator(seed) {
  let state = seed >>> 0;
  // Numerical Recipes, a linear congruential generator: enough for drawing cells.
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
}

/** @returns tables of a cell, for readCell */
export function jobWeek({ jobs, parts, machines, seed, load = 0.75, night = false }) {
  const random = generator(seed * 7919 + jobs * 31 + parts);
  const names = Array.from({ length: machines }, (_, m) => `m${m + 1}`);
  const half = Math.ceil(machines / 2);
  const partRows = [];
  const cycles = [];
  for (let p = 0; p < parts; p++) {
    const group = random(2) === 0 ? names.slice(0, half) : names.slice(half);
    const count = 1 + random(Math.min(3, group.length));
    const first = random(group.length);
    const on = Array.from({ length: count }, (_, k) => group[(first + k) % group.length]);
    const cycleS = 90 + random(300);
    cycles.push(cycleS);
    partRows.push(`p${p},1,in,,,4`, `p${p},2,${on.join('|')},${cycleS},8,7`, `p${p},3,out,,4,`);
  }
  const hours = machines * (night ? 120 : 80) * load;
  const due = ['Tue', 'Wed', 'Wed 12:00', 'Thu', 'Thu 14:00', 'Fri', 'Fri'];
  const jobRows = Array.from({ length: jobs }, (_, j) => {
    const p = j < parts ? j : random(parts);
    const quantity = Math.max(
      1,
      Math.round(((hours / jobs) * (0.4 + random(120) / 100) * 3600) / (cycles[p] + 20)),
    );
    const from = random(10) === 0 ? 'Tue' : '';
    return `${j + 1},p${p},${quantity},${due[from === '' ? random(due.length) : 3 + random(4)]},${from},${15 + ((p * 7) % 50)}`;
  });
  return {
    'stations.csv': `station,kind,x_m,y_m,close_s,ready_s\nin,infeed,0,0,,\n${names.map((n, k) => `${n},machine,${1 + k},${k % 2 === 0 ? 1.5 : -1.5},2,2`).join('\n')}\nout,outfeed,${machines + 1},0,,\n`,
    'routes.csv': `part,step,stations,cycle_s,load_s,unload_s\n${partRows.join('\n')}\n`,
    'robot.csv': 'setting,value\nhands,1\nspeed_m_s,1.2\naccel_m_s2,2.5\n',
    'shifts.csv': `pattern,shift,days,start,end,breaks,attended,operators,labour_per_h\nweek,early,Mon-Fri,06:00,14:00,09:00-09:15;11:30-12:00,yes,1,39\nweek,late,Mon-Fri,14:00,22:00,18:00-18:30,yes,1,42\n${night ? 'week,night,Mon-Thu,22:00,06:00,,no,0,0\n' : ''}`,
    'jobs.csv': `job,part,quantity,due,not_before,setup_min\n${jobRows.join('\n')}\n`,
  };
}
