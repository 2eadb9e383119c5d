using System.Xml.Linq;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>Projects refer to each other as DEVELOPERS.md draws it, and in no other way.</summary>
public class ProjectArrowTests
{
    [Theory]
    [InlineData("Text", "")]
    [InlineData("PowerDelivery", "")]
    [InlineData("Captures", "PowerDelivery Text")]
    [InlineData("Synthesis", "Captures")]
    [InlineData("Labels", "PowerDelivery")]
    [InlineData("Following", "Captures")]
    [InlineData("Analysis", "Captures Following Labels")]
    [InlineData("Product", "Analysis")]
    [InlineData("Negotiation", "Product")]
    [InlineData("Contracts", "")]
    [InlineData("History", "Contracts")]
    [InlineData("Service", "Contracts History Negotiation Product Queue Synthesis")]
    [InlineData("Queue", "")]
    [InlineData("Reports", "Contracts")]
    [InlineData("Cli", "Contracts Reports Service")]
    [InlineData("Server", "Cli")]
    [InlineData("Tool", "Cli")]
    public void Project_RefersOnlyToItsNeighbours(string project, string expected)
    {
        XDocument file = XDocument.Load(Repository.PathOf("src", $"Portwitness.{project}", $"Portwitness.{project}.csproj"));
        IEnumerable<string> references = file.Descendants("ProjectReference")
            .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)["Portwitness.".Length..])
            .Order(StringComparer.Ordinal);

        string.Join(' ', references).Should().Be(expected);
    }

    [Fact]
    public void EveryProject_IsCoveredAboveAndInTheSolution()
    {
        string solution = File.ReadAllText(Repository.PathOf("Protocols.sln"));
        string[] sources = Directory.GetDirectories(Repository.PathOf("src"));
        sources.Should().HaveCount(17);
        foreach (string folder in sources.Concat(Directory.GetDirectories(Repository.PathOf("tests"), "Portwitness.*")))
        {
            solution.Should().Contain($"{Path.GetFileName(folder)}.csproj");
        }
    }
}
