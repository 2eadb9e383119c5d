using System.Text.Json;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Sarif;
using Portwitness.Tests;

namespace Portwitness.Reports.Tests;

public sealed class SarifReportTests
{
    private static readonly RuleDescription Rule = new()
    {
        Name = "a-rule",
        Title = "Something is amiss",
        Why = "It matters.",
        Example = "0x0801912C",
        Evidence = "the edition",
        Severity = Severity.Mismatch,
        Category = "label",
        Clause = "printed label",
        Editions = { "R3.1", "R3.2" },
    };

    public static TheoryData<string> Hostile => SampleReports.Hostile;

    [Theory]
    [MemberData(nameof(Hostile))]
    public void HostileTexts_KeepToTheSchema(string text)
    {
        foreach (bool product in new[] { true, false })
        {
            ReportSet set = new([new ReportedProduct(text, product, ProductOutcome.Fails, () => SampleReports.FilledWith(text))]);

            string log = SampleReports.Write(SarifReport.Write, set);

            PublishedSchemas.SarifFaults(log).Should().BeEmpty();
            log.Should().NotContainAny("\u001b", "\u202e", "\u2028", "\0");
        }
    }

    // 3.27.10: error, warning, note; another kind than "fail" would need the level "none" (3.27.9).
    [Theory]
    [InlineData(Severity.Violation, "error")]
    [InlineData(Severity.Mismatch, "error")]
    [InlineData(Severity.Caution, "warning")]
    [InlineData(Severity.Note, "note")]
    public void Severity_BecomesALevel(Severity severity, string level)
    {
        JsonElement result = Results(RunOf(new Finding { Rule = "a-rule", Severity = severity }))[0];

        result.GetProperty("level").GetString().Should().Be(level);
        result.TryGetProperty("kind", out _).Should().BeFalse();
    }

    // 3.27.12: several locations of one result, each with what was seen there (3.28.5).
    [Fact]
    public void FurtherPlaces_AreLocationsOfTheSameResult()
    {
        JsonElement[] results = [.. Results(RunOf(new Finding
        {
            Rule = "a-rule", File = "c1.jsonl", Port = "C1", Arrangement = { "C1" }, MessageIndex = 1, ObjectPosition = 2,
            FurtherPlaces =
            {
                new FindingPlace { File = "c1.jsonl", Arrangement = { "C1" }, MessageIndex = 1, ObjectPosition = 3, Detail = "Third." },
                new FindingPlace { File = "c2.jsonl", Arrangement = { "C1", "C2" }, MessageIndex = 5, ObjectPosition = 2, Detail = "Other." },
            },
        }))];

        JsonElement[] locations = [.. results.Should().ContainSingle().Subject.GetProperty("locations").EnumerateArray()];
        locations.Select(static one => one.GetProperty("physicalLocation").GetProperty("artifactLocation").GetProperty("uri").GetString())
            .Should().Equal("bench/th-65/c1.jsonl", "bench/th-65/c1.jsonl", "bench/th-65/c2.jsonl");
        locations[0].TryGetProperty("message", out _).Should().BeFalse();
        locations.Skip(1).Select(static one => one.GetProperty("message").GetProperty("text").GetString())
            .Should().Equal("object 3: Third.", "c2.jsonl, in use C1 + C2, message 5, object 2: Other.");
        locations[2].GetProperty("logicalLocations")[2].GetProperty("name").GetString().Should().Be("C1 + C2");
    }

    [Fact]
    public void Rules_AreThoseWithResults_AsTheCatalogueDescribesThem()
    {
        JsonElement run = RunOf(
            new Finding { Rule = "unheard-of", Severity = Severity.Note, Title = "Its title" },
            new Finding { Rule = "a-rule" }, new Finding { Rule = "a-rule" });

        JsonElement driver = run.GetProperty("tool").GetProperty("driver");
        driver.GetProperty("version").GetString().Should().MatchRegex(@"^\d+\.\d+\.\d+$");
        JsonElement[] rules = [.. driver.GetProperty("rules").EnumerateArray()];
        rules.Select(static rule => rule.GetProperty("id").GetString()).Should().Equal("unheard-of", "a-rule");
        rules[0].GetProperty("shortDescription").GetProperty("text").GetString().Should().Be("Its title");
        rules[1].GetProperty("shortDescription").GetProperty("text").GetString().Should().Be("Something is amiss");
        rules[1].GetProperty("fullDescription").GetProperty("text").GetString().Should().Be("It matters.");
        rules[1].GetProperty("help").GetProperty("text").GetString().Should().Be("By: printed label\nNeeds: the edition\nExample: 0x0801912C");
        rules[1].GetProperty("defaultConfiguration").GetProperty("level").GetString().Should().Be("error");
        JsonElement properties = rules[1].GetProperty("properties");
        properties.GetProperty("category").GetString().Should().Be("label");
        properties.GetProperty("clause").GetString().Should().Be("printed label");
        properties.GetProperty("editions").EnumerateArray().Select(static one => one.GetString()).Should().Equal("R3.1", "R3.2");
        Results(run).Select(static result => result.GetProperty("ruleIndex").GetInt32()).Should().Equal(0, 1, 1);
    }

    [Theory]
    [InlineData("bench/th-65/product.yaml", true, "c1.jsonl", "bench/th-65/c1.jsonl")]
    [InlineData("product.yaml", true, "ports/c 1:b#%.jsonl", "ports/c%201%3Ab%23%25.jsonl")]
    [InlineData("/bench/th-65/product.yaml", true, "c1.jsonl", "file:///bench/th-65/c1.jsonl")]
    [InlineData("bench/th-65/product.yaml", true, "", "bench/th-65/product.yaml")]
    [InlineData("bench/c1.jsonl", false, "bench/c1.jsonl", "bench/c1.jsonl")]
    public void Place_IsTheFileAndThePort(string source, bool isProduct, string file, string uri)
    {
        Finding finding = new() { Rule = "a-rule", File = file, Port = "C1", Arrangement = { "C1", "C2" }, LabelLine = 2, MessageIndex = 5 };
        ProductReport report = new() { Product = "TH-65", Findings = { finding } };
        JsonElement run = RunOf(new ReportSet([new(source, isProduct, ProductOutcome.Fails, () => report)]));

        JsonElement location = Results(run)[0].GetProperty("locations")[0];
        JsonElement place = location.GetProperty("physicalLocation");
        place.GetProperty("artifactLocation").GetProperty("uri").GetString().Should().Be(uri);
        place.TryGetProperty("region", out _).Should().BeFalse("neither a label's line nor a message's number is a line of that file");
        location.GetProperty("logicalLocations").EnumerateArray().Select(static one => one.GetProperty("fullyQualifiedName").GetString())
            .Should().Equal("TH-65", "TH-65/C1", "TH-65/C1/C1 + C2");
        int index = place.GetProperty("artifactLocation").GetProperty("index").GetInt32();
        run.GetProperty("artifacts")[index].GetProperty("location").GetProperty("uri").GetString().Should().Be(uri);
        Results(run)[0].GetProperty("properties").GetProperty("labelLine").GetInt32().Should().Be(2);
    }

    [Fact]
    public void FindingAboutALabelOfNoFile_HasNoPhysicalPlace()
    {
        ProductReport report = new() { Findings = { new Finding { Rule = "a-rule" } } };
        ReportSet set = new([new("c1.jsonl", false, ProductOutcome.Fails, () => report)]);

        Results(RunOf(set))[0].GetProperty("locations")[0].TryGetProperty("physicalLocation", out _).Should().BeFalse();
    }

    [Fact]
    public void Fault_IsANotificationWithItsLine()
    {
        ProductReport report = new()
        {
            Unusable = true,
            Faults = { new Fault { File = "c1.log", Line = 3, Column = 9, Code = "bad", Detail = "what [was] found" } },
            Rules = new RuleSelection { Without = { "a-rule" } },
        };
        JsonElement invocation = RunOf(SampleReports.SetOf(report)).GetProperty("invocations")[0];

        invocation.GetProperty("executionSuccessful").GetBoolean().Should().BeFalse();
        JsonElement notification = invocation.GetProperty("toolExecutionNotifications")[0];
        notification.GetProperty("level").GetString().Should().Be("error");
        notification.GetProperty("message").GetProperty("text").GetString()
            .Should().Contain("what \\[was\\] found", "brackets would be a link (3.11.6)");
        JsonElement place = notification.GetProperty("locations")[0].GetProperty("physicalLocation");
        place.GetProperty("artifactLocation").GetProperty("uri").GetString().Should().Be("bench/th-65/c1.log");
        place.GetProperty("region").GetProperty("startLine").GetInt32().Should().Be(3);
        invocation.GetProperty("toolConfigurationNotifications")[0].GetProperty("message").GetProperty("text").GetString()
            .Should().Be("These rules were left out: a-rule");
    }

    [Fact]
    public void Fingerprints_AreOfTheFindingAndNotOfItsValues()
    {
        string[] prints = Prints(
            new Finding { Rule = "a-rule", Port = "C1", Observed = "5 V", TimeUs = 1 },
            new Finding { Rule = "a-rule", Port = "C1", Observed = "6 V", TimeUs = 2 },
            new Finding { Rule = "a-rule", Port = "C2" });

        prints.Should().OnlyHaveUniqueItems();
        Prints(new Finding { Rule = "a-rule", Port = "C1", Observed = "7 V", TimeUs = 3 }).Should().Equal(prints[0]);
        static string[] Prints(params Finding[] findings) =>
            [.. Results(RunOf(findings)).Select(static one => one.GetProperty("partialFingerprints").GetProperty("finding/v1").GetString()!)];
    }

    private static JsonElement[] Results(JsonElement run) => [.. run.GetProperty("results").EnumerateArray()];

    private static JsonElement RunOf(params Finding[] findings) =>
        RunOf(SampleReports.SetOf(new ProductReport { Product = "TH-65", Findings = { findings } }));

    private static JsonElement RunOf(ReportSet set)
    {
        string log = SampleReports.Write(SarifReport.Write, set with { Rules = [Rule] });
        PublishedSchemas.SarifFaults(log).Should().BeEmpty();
        return JsonDocument.Parse(log).RootElement.GetProperty("runs")[0];
    }
}
