using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Portwitness.Service.Tests.Access;

/// <summary>An authority that signs certificates for tests.</summary>
internal sealed class TestAuthority : IDisposable
{
    public const string ForServers = "1.3.6.1.5.5.7.3.1";
    public const string ForClients = "1.3.6.1.5.5.7.3.2";

    private static int _serials;

    public TestAuthority(string name = "Test authority")
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        Certificate = RequestFor(name, key, isAuthority: true, use: null).CreateSelfSigned(Now.AddDays(-10), Now.AddDays(10));
    }

    private TestAuthority(X509Certificate2 certificate) => Certificate = certificate;

    public X509Certificate2 Certificate { get; }

    public string Pem => Certificate.ExportCertificatePem() + "\n";

    private static DateTimeOffset Now => DateTimeOffset.UtcNow;

    public void Dispose() => Certificate.Dispose();

    /// <summary>An authority that this one vouches for.</summary>
    public TestAuthority Below(string name)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using X509Certificate2 signed = RequestFor(name, key, isAuthority: true, use: null).Create(Certificate, Now.AddDays(-9), Now.AddDays(9), Serial());
        return new(signed.CopyWithPrivateKey(key));
    }

    /// <summary>A certificate with its key; from and until are days from now.</summary>
    public X509Certificate2 Sign(string name, string? use, double from = -1, double until = 1)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using X509Certificate2 signed = RequestFor(name, key, isAuthority: false, use).Create(Certificate, Now.AddDays(from), Now.AddDays(until), Serial());
        return signed.CopyWithPrivateKey(key);
    }

    /// <summary>A certificate that nobody vouches for.</summary>
    public static X509Certificate2 SelfSigned(string name, string use)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return RequestFor(name, key, isAuthority: false, use).CreateSelfSigned(Now.AddDays(-1), Now.AddDays(1));
    }

    private static CertificateRequest RequestFor(string name, ECDsa key, bool isAuthority, string? use)
    {
        CertificateRequest request = new($"CN={name}", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(isAuthority, hasPathLengthConstraint: false, 0, critical: true));
        if (use is not null)
        {
            request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], critical: false));
        }

        SubjectAlternativeNameBuilder names = new();
        names.AddIpAddress(IPAddress.Loopback);
        names.AddDnsName("localhost");
        request.CertificateExtensions.Add(names.Build());
        return request;
    }

    private static byte[] Serial() => BitConverter.GetBytes(Interlocked.Increment(ref _serials));
}
