using System.Reflection;
using System.Text.RegularExpressions;
using Portwitness.Testing;
using Portwitness.Tests;

namespace Portwitness.Synthesis.Tests;

/// <summary>captures/SYNTHESIS.md and the tool say the same.</summary>
public partial class SynthesisPageTests
{
    private static readonly string Page = File.ReadAllText(Repository.PathOf("captures", "SYNTHESIS.md"));

    [Fact]
    public void Examples_AreWrittenAndReadBackWithoutFault()
    {
        string[] examples = [.. Block().Matches(Page).Select(match => match.Groups[1].Value)];
        examples.Should().HaveCount(3);
        foreach (string example in examples)
        {
            Synthesised.Of(example).Messages.Should().NotBeEmpty();
        }
    }

    [Fact]
    public void Codes_AreThoseOfThePage() =>
        CodeRow().Matches(Page).Select(match => match.Groups[1].Value).Should().BeEquivalentTo(
            typeof(SynthesisFaultCodes).GetFields(BindingFlags.Public | BindingFlags.Static).Select(field => (string)field.GetRawConstantValue()!));

    [Fact]
    public void Steps_AreThoseOfThePage()
    {
        // The message about an unknown step lists them all.
        string list = ScriptReader.Read("steps: [fly]").Faults.Single().Detail.Split("The steps are ")[1];
        string[] verbs = list.Replace(" and ", ", ").Split(", ");

        string table = Page.Split("## Steps")[1].Split("A step may end")[0];
        Verb().Matches(table).Select(match => match.Groups[1].Value).Distinct().Should().BeEquivalentTo(verbs);
        foreach (string verb in verbs.Where(verb => verb != "repeat"))
        {
            ScriptReader.Read($"steps: [{verb}]").Faults.Should().NotContain(fault => fault.Code == SynthesisFaultCodes.StepUnknown);
        }
    }

    [GeneratedRegex("^```yaml\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex("^\\| `(script-[a-z-]+)` \\|", RegexOptions.Multiline)]
    private static partial Regex CodeRow();

    [GeneratedRegex("(?:^\\| |(?<=^\\| `[^|]*), )`([a-z-]+)", RegexOptions.Multiline)]
    private static partial Regex Verb();
}
