/**
 * @typedef {{passed: number, failed: number, skipped: number}} Counts
 * @typedef {{status: string, assertionResults: {status: string}[]}} TestFile
 * @typedef {{testResults: TestFile[], numPassedTests: number, numFailedTests: number, numPendingTests: number,
 *   numTodoTests: number}} TestReport
 */

/**
 * One line that says how a check or a test run went.
 *
 * @param {Counts & {name: string}} result
 */
export const summarise = ({ name, passed, failed, skipped }) =>
  `${failed === 0 ? 'ok    ' : 'FAILED'} ${name}: ${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ''}`;

/**
 * Counts what a vitest run did from its JSON report. A file that could not be loaded has no tests in the report, so it
 * counts as one failed item; so does a run without a report, or one that ended badly with no failed test to show for it.
 *
 * @param {() => TestReport} readReport gives the parsed report, or throws where there is none
 * @param {number} exitCode how vitest ended
 * @returns {Counts}
 */
export const countTests = (readReport, exitCode) => {
  let report;
  try {
    report = readReport();
  } catch (error) {
    console.error(`No test report: ${error instanceof Error ? error.message : error}`);
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const unloaded = report.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  const failed = report.numFailedTests + unloaded;
  return {
    passed: report.numPassedTests,
    failed: failed === 0 && exitCode !== 0 ? 1 : failed,
    skipped: report.numPendingTests + report.numTodoTests,
  };
};
