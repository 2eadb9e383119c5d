using System.Security.Cryptography.X509Certificates;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Access;

namespace Portwitness.Service.Tests.Access;

/// <summary>TLS and mutual TLS over real connections.</summary>
public sealed class CertificateTests
{
    private static readonly ListRulesRequest Rules = new() { Name = "no-such-rule" };

    [Theory]
    [InlineData("good", true)]
    [InlineData("for any use", true)]
    [InlineData("none", false)]
    [InlineData("expired", false)]
    [InlineData("not yet valid", false)]
    [InlineData("of another authority", false)]
    [InlineData("of another authority with the same name", false)]
    [InlineData("for servers", false)]
    [InlineData("self-signed", false)]
    [InlineData("of an authority in between that was not given", false)]
    public async Task Client_IsLetInByItsCertificateAlone(string kind, bool isLetIn)
    {
        await using AccessHost host = await AccessHost.StartAsync("tls clients");
        using TestAuthority stranger = new(kind.EndsWith("same name", StringComparison.Ordinal) ? "Test authority" : "Another authority");
        using TestAuthority between = host.Authority.Below("In between");
        using X509Certificate2? shown = kind switch
        {
            "none" => null,
            "for any use" => host.Authority.Sign("bench", use: null),
            "expired" => host.Authority.Sign("bench", TestAuthority.ForClients, from: -2, until: -1),
            "not yet valid" => host.Authority.Sign("bench", TestAuthority.ForClients, from: 1, until: 2),
            "of another authority" or "of another authority with the same name" => stranger.Sign("bench", TestAuthority.ForClients),
            "for servers" => host.Authority.Sign("bench", TestAuthority.ForServers),
            "self-signed" => TestAuthority.SelfSigned("bench", TestAuthority.ForClients),
            "of an authority in between that was not given" => between.Sign("bench", TestAuthority.ForClients),
            _ => host.Authority.Sign("bench", TestAuthority.ForClients),
        };

        Status status = await CallAsync(host.Client(shown));

        // Who is not let in gets no answer at all, as nothing of gRPC was heard.
        StatusCode[] expected = isLetIn ? [StatusCode.NotFound] : [StatusCode.Unavailable, StatusCode.Internal];
        expected.Should().Contain(status.StatusCode, status.ToString());
    }

    [Fact]
    public async Task CertificateAlone_Submits_AndDoesNotAdminister()
    {
        await using AccessHost host = await AccessHost.StartAsync("tls clients");
        using X509Certificate2 shown = host.Authority.Sign("bench", TestAuthority.ForClients);
        Witness.WitnessClient client = host.Client(shown);

        (await client.ReadLabelAsync(new ReadLabelRequest { Text = "5V 3A" })).Label.Should().NotBeNull();
        foreach (string method in Witness.Descriptor.Methods.Select(static method => method.Name))
        {
            ((await Call.MethodAsync(host.Connect(shown), Witness.Descriptor.FullName, method)).StatusCode == StatusCode.PermissionDenied)
                .Should().Be(method == "RetrySubmission", method);
        }
    }

    [Fact]
    public async Task CertificateAndToken_AreBothNeeded()
    {
        await using AccessHost host = await AccessHost.StartAsync("tls clients tokens");
        using X509Certificate2 shown = host.Authority.Sign("bench", TestAuthority.ForClients);
        Metadata token = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Read));

        (await CallAsync(host.Client(shown))).StatusCode.Should().Be(StatusCode.Unauthenticated);
        (await CallAsync(host.Client(), token)).StatusCode.Should().BeOneOf(StatusCode.Unavailable, StatusCode.Internal);
        (await CallAsync(host.Client(shown), token)).StatusCode.Should().Be(StatusCode.NotFound);
    }

    [Fact]
    public async Task RenewedCertificate_IsUsedWithoutARestart_AndABrokenOneIsNot()
    {
        await using AccessHost host = await AccessHost.StartAsync("tls");
        string first = await SeenAsync(host);
        using X509Certificate2 renewed = host.Authority.Sign("renewed", TestAuthority.ForServers);

        host.Renew(renewed);
        string second = await SeenAsync(host);
        await File.WriteAllTextAsync(host.CertificateFile, "-----BEGIN CERTIFICATE-----\nhalf");
        string third = await SeenAsync(host);
        File.Delete(host.CertificateFile);
        string fourth = await SeenAsync(host);
        // A certificate comes first, its key later.
        using X509Certificate2 last = host.Authority.Sign("last", TestAuthority.ForServers);
        await File.WriteAllTextAsync(host.CertificateFile, last.ExportCertificatePem());
        string fifth = await SeenAsync(host);
        host.Renew(last);
        string sixth = await SeenAsync(host);

        second.Should().Be(renewed.Thumbprint).And.NotBe(first);
        new[] { third, fourth, fifth }.Should().AllBe(second);
        sixth.Should().Be(last.Thumbprint);
    }

    // Tools that renew certificates swap a link, of the file or of a folder above it; times of files may all be the same.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task LinkThatWasSwapped_IsARenewedCertificate(bool folder)
    {
        using TestAuthority authority = new();
        DirectoryInfo root = Directory.CreateTempSubdirectory("portwitness-doors-");
        string file = Path.Combine(root.FullName, "service.pem");
        string key = Path.Combine(root.FullName, "service.key");
        foreach (string name in new[] { "first", "second" })
        {
            using X509Certificate2 made = authority.Sign(name, TestAuthority.ForServers);
            string at = Path.Combine(root.FullName, name);
            Directory.CreateDirectory(at);
            await File.WriteAllTextAsync(Path.Combine(at, "service.pem"), made.ExportCertificatePem());
            await File.WriteAllTextAsync(Path.Combine(at, "service.key"), made.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem());
            File.SetLastWriteTimeUtc(Path.Combine(at, "service.pem"), DateTime.UnixEpoch);
        }

        string data = Path.Combine(root.FullName, "data");
        Point("first");
        ServiceCertificate certificate = new(file, key);
        string before = certificate.Current.TargetCertificate.Subject;

        Point("second");

        (before, certificate.Current.TargetCertificate.Subject).Should().Be(("CN=first", "CN=second"));
        root.Delete(recursive: true);

        void Point(string to)
        {
            string[] links = folder ? [data] : [file, key];
            links.ToList().ForEach(File.Delete);
            if (folder)
            {
                Directory.CreateSymbolicLink(data, Path.Combine(root.FullName, to));
                if (!File.Exists(file))
                {
                    File.CreateSymbolicLink(file, Path.Combine(data, "service.pem"));
                    File.CreateSymbolicLink(key, Path.Combine(data, "service.key"));
                }

                return;
            }

            File.CreateSymbolicLink(file, Path.Combine(root.FullName, to, "service.pem"));
            File.CreateSymbolicLink(key, Path.Combine(root.FullName, to, "service.key"));
        }
    }

    private static Task<Status> CallAsync(Witness.WitnessClient client, Metadata? headers = null) =>
        Call.StatusOfAsync(async () => await client.ListRulesAsync(Rules, headers));

    // Every connection is told the certificate of its time.
    private static async Task<string> SeenAsync(AccessHost host)
    {
        string seen = "";
        Witness.WitnessClient client = new(host.Connect(seen: certificate => seen = certificate.Thumbprint));
        (await CallAsync(client)).StatusCode.Should().Be(StatusCode.NotFound);
        return seen;
    }
}
