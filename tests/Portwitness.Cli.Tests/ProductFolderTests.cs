using Portwitness.Cli.Files;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>What the service may ask for, and what it may not, whatever it says.</summary>
public sealed class ProductFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly ProductFolder _product;

    public ProductFolderTests()
    {
        _folder.Write("secret.txt", "secret");
        _folder.Write("product/c1.words", "words");
        _folder.Write("product/deep/c2.words", "deep words");
        _folder.Write("product-of-another/c1.words", "of another");
        File.CreateSymbolicLink(_folder.PathOf("product/inside"), "deep/c2.words");
        File.CreateSymbolicLink(_folder.PathOf("product/outside"), _folder.PathOf("secret.txt"));
        File.CreateSymbolicLink(_folder.PathOf("product/relative-outside"), "../secret.txt");
        Directory.CreateSymbolicLink(_folder.PathOf("product/up"), _folder.Path);
        File.CreateSymbolicLink(_folder.PathOf("product/circle"), "circle");
        Directory.CreateDirectory(_folder.PathOf("product/empty"));
        _product = new ProductFolder(_folder.PathOf("product"), new PhotoReading());
    }

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("c1.words", "words")]
    [InlineData("./c1.words", "words")]
    [InlineData("deep/c2.words", "deep words")]
    [InlineData("inside", "deep words")]
    public void FileInside_IsGiven(string relative, string content)
    {
        using StreamReader reader = new(_product.Open(relative));

        reader.ReadToEnd().Should().Be(content);
    }

    [Theory]
    [InlineData("")]
    [InlineData("../secret.txt")]
    [InlineData("deep/../../secret.txt")]
    [InlineData("deep/../c1.words")]
    [InlineData("..\\secret.txt")]
    [InlineData("/etc/hostname")]
    [InlineData("c1.words\0")]
    [InlineData("outside")]
    [InlineData("relative-outside")]
    [InlineData("up/secret.txt")]
    [InlineData("up/product-of-another/c1.words")]
    [InlineData("circle")]
    [InlineData("empty")]
    [InlineData(".")]
    [InlineData("missing.words")]
    public void AnythingElse_IsRefused(string relative)
    {
        Action open = () => _product.Open(relative).Dispose();

        open.Should().Throw<CommandFailure>().Which.Message.Should().NotContain(_folder.Path);
    }

    [Fact]
    public void FolderReachedByALink_IsStillItself()
    {
        Directory.CreateSymbolicLink(_folder.PathOf("alias"), _folder.PathOf("product"));

        using Stream stream = new ProductFolder(_folder.PathOf("alias"), new PhotoReading()).Open("c1.words");

        stream.Length.Should().Be(5);
    }
}
