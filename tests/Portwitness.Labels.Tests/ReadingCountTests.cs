using System.Globalization;
using Xunit.Abstractions;

namespace Portwitness.Labels.Tests;

/// <summary>How much of the cases' labels is read, file by file. A misread statement is never acceptable, an unread one is.</summary>
public sealed class ReadingCountTests(ITestOutputHelper output)
{
    [Fact]
    public void Cases_HaveNoMisreadStatement()
    {
        output.WriteLine($"{"cases",5} {"printed",8} {"right",6} {"unread",7} {"misread",8}");
        (int printed, int right, int unread, int misread) = (0, 0, 0, 0);
        foreach (LabelCase one in LabelCase.All)
        {
            string[] expected = [.. Statements(one.Expected)];
            string[] read = [.. Statements(LabelCase.Describe(LabelReader.Read(one.Text)))];
            printed += expected.Length;
            unread += read.Count(IsUnread);
            right += read.Count(line => !IsUnread(line) && expected.Contains(line));
            misread += read.Count(line => !IsUnread(line) && !expected.Contains(line));
        }

        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{LabelCase.All.Count,5} {printed,8} {right,6} {unread,7} {misread,8}"));
        misread.Should().Be(0);
        (right + unread).Should().Be(printed);
        LabelCase.All.Count.Should().BeGreaterThanOrEqualTo(148);
    }

    // A port's own line only says that it is there.
    private static IEnumerable<string> Statements(string reading) => reading.Split('\n')
        .Where(static line => line.Split(' ').Length > 2 && !line.EndsWith(" incomplete", StringComparison.Ordinal)
            && !line.EndsWith(" captive", StringComparison.Ordinal) && line.Split(' ')[1] is not ("repaired" or "unfit"));

    private static bool IsUnread(string line) => line.Split(' ')[1] == "unread";
}
