using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Portwitness.Service.Access;

/// <summary>The service's certificate, read again when its file has changed: a renewed one needs no restart.</summary>
internal sealed class ServiceCertificate(string file, string keyFile)
{
    private readonly Lock _reading = new();
    private (string Pem, SslStreamCertificateContext Certificate)? _current;

    /// <summary>The certificate as it is now. When a new one cannot be read the last good one is used on.</summary>
    /// <exception cref="AccessException">There is none yet.</exception>
    public SslStreamCertificateContext Current
    {
        get
        {
            lock (_reading)
            {
                try
                {
                    // No time tells: tools swap a link of the file or of a folder above it, and some set every file's time to the same.
                    string pem = File.ReadAllText(file);
                    if (_current?.Pem != pem)
                    {
                        X509Certificate2Collection chain = [];
                        chain.ImportFromPem(pem);
                        _current = (pem, SslStreamCertificateContext.Create(X509Certificate2.CreateFromPem(pem, File.ReadAllText(keyFile)), chain, offline: true));
                    }
                }
                catch (Exception exception) when (exception is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
                {
                    if (_current is null)
                    {
                        throw new AccessException(
                            $"{file} and {keyFile} are no certificate with its key ({exception.Message.TrimEnd('.')}); both have to be PEM, the key without a password.", exception);
                    }
                }

                return _current!.Value.Certificate;
            }
        }
    }
}
