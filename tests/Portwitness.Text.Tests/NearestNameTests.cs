namespace Portwitness.Text.Tests;

/// <summary>Mistyped names: the distances are of the optimal string alignment, counted by hand.</summary>
public class NearestNameTests
{
    private static readonly string[] Known = ["label", "label_corrections", "captures", "at", "with", "port", "part"];

    [Theory]
    [InlineData("lable", "label")]
    [InlineData("labels", "label")]
    [InlineData("lbel", "label")]
    [InlineData("LABEL", "label")]
    [InlineData("label-corrections", "label_corrections")]
    [InlineData("labelcorections", "label_corrections")]
    [InlineData("prot", "port")]
    [InlineData("capture", "captures")]
    [InlineData("wiht", "with")]
    [InlineData("colour", null)]
    [InlineData("lambda", null)]
    [InlineData("a", null)]
    [InlineData("", null)]
    public void NameThatIsNear_IsFound(string name, string? expected) => NearestName.Of(name, Known).Should().Be(expected);

    [Fact]
    public void HostileName_IsCutAndNotCompared()
    {
        NearestName.Of(new string('a', 100_000), Known).Should().BeNull();
        NearestName.UnknownMember(new string('a', 100_000), "a list", Known).Length.Should().BeLessThan(200);
    }
}
