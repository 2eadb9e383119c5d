using System.Text.RegularExpressions;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Catalogue;
using Portwitness.Tests;

namespace Portwitness.Product.Tests.Rules;

/// <summary>
/// The words of what rules say stand in the source, and only they: a value that was made a string on its way would be among the words, where
/// nobody can tell it from them, nor print it in another way.
/// </summary>
public partial class PhraseWordsTests
{
    private static readonly string Source = ReadSource();

    public static TheoryData<string> Names() => [.. RuleCatalogue.Descriptions.Select(rule => rule.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Words_AreThoseOfTheSource(string name)
    {
        foreach (Finding finding in ExampleRun.Of(RuleCatalogue.Descriptions.Single(rule => rule.Name == name).Example))
        {
            foreach (string words in new[] { finding.Detail, finding.Expected, finding.Observed, finding.NextStep }.SelectMany(Words))
            {
                Source.Contains(words, StringComparison.Ordinal).Should().BeTrue($"{finding.Rule} says \"{words}\", and what is no word of the source is a value");
            }
        }
    }

    private static IEnumerable<string> Words(Phrase phrase) =>
        phrase.Parts.ToArray().SelectMany(static part => part is string words ? [words] : part is Phrase inner ? Words(inner) : []);

    // Literals as they are said: concatenations joined, quotes and braces unescaped.
    private static string ReadSource()
    {
        IEnumerable<string> files = Directory.EnumerateFiles(Repository.PathOf("src"), "*.cs", SearchOption.AllDirectories)
            .Where(static file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
        return Joint().Replace(string.Concat(files.Select(File.ReadAllText)), "")
            .Replace("\\\"", "\"", StringComparison.Ordinal).Replace("{{", "{", StringComparison.Ordinal).Replace("}}", "}", StringComparison.Ordinal);
    }

    [GeneratedRegex("\"\\)?\\s*\\+ \\$?\"")]
    private static partial Regex Joint();
}
