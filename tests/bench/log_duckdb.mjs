// The sums of log_speed by DuckDB, for comparison only.
//   node log_duckdb.mjs FOLDER_WITH_NODE_MODULES LOG THREADS
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const [folder, log, threads] = process.argv.slice(2);
const { DuckDBInstance } = createRequire(resolve(folder, 'package.json'))('@duckdb/node-api');
const connection = await (await DuckDBInstance.create(':memory:', { threads })).connect();
const result = await connection.runAndReadAll(`
    SELECT floor(abs("Case torque (Nm)") / 20) AS torque, floor("Case speed (rpm)" / 100) AS speed,
           sum("Case speed (rpm)" * 0.01 / 60) AS turns,
           sum("Case speed (rpm)" * 0.01 / 60 * abs("Case torque (Nm)") ^ 3) AS damage
    FROM read_csv('${log}', header = true) GROUP BY ALL`);
console.log(result.getRows().length);
