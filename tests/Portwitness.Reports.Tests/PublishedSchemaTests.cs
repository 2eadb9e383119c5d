using Portwitness.Tests;

namespace Portwitness.Reports.Tests;

/// <summary>The schemas find what is wrong: a schema that takes everything would prove nothing.</summary>
public sealed class PublishedSchemaTests
{
    private const string Run = """{"version":"2.1.0","runs":[{"tool":{"driver":{"name":"x"}},"results":[RESULTS]}]}""";

    // SARIF 2.1.0, 3.27: a result has a message; 3.27.10: the levels; 3.27.6: an index from 0.
    [Theory]
    [InlineData("""{"message":{"text":"x"}}""", true)]
    [InlineData("""{"ruleId":"x"}""", false)]
    [InlineData("""{"message":{"text":"x"},"level":"mismatch"}""", false)]
    [InlineData("""{"message":{"text":"x"},"ruleIndex":-2}""", false)]
    [InlineData("""{"message":{"text":"x"},"severity":"high"}""", false)]
    public void Sarif_IsChecked(string result, bool valid) =>
        PublishedSchemas.SarifFaults(Run.Replace("RESULTS", result, StringComparison.Ordinal)).Any().Should().Be(!valid);

    [Theory]
    [InlineData("""<testsuites><testsuite name="x" tests="1"><testcase name="x"><skipped>why</skipped></testcase></testsuite></testsuites>""", true)]
    [InlineData("""<testsuites><testsuite tests="1"/></testsuites>""", false)]
    [InlineData("""<testsuites><testsuite name="x" tests="1"><testcase name="x"><skipped message="why"/></testcase></testsuite></testsuites>""", false)]
    [InlineData("""<testsuites><testcase name="x"/></testsuites>""", false)]
    [InlineData("<results/>", false)]
    public void Junit_IsChecked(string text, bool valid) => PublishedSchemas.JunitFaults(text).Any().Should().Be(!valid);
}
